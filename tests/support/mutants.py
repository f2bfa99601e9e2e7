"""Programs with one small mistake in them, and whether the tests of their package notice.

The mistakes are cosmic-ray's operators: a condition turned round, a comparison or a sign changed, a
number one more or less, a loop that is not run. Left out are annotations, which nobody reads while
the program runs, and decorators, which say what kind of record a class is.
"""

from __future__ import annotations

import ast
import os
import sys
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from random import Random
from shutil import copytree, ignore_patterns

import pytest
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator, operator_names

ROOT = Path(__file__).parents[2]
_COPIED = (
    *("walkaround", "checklists", "assets", "tests"),
    *("pyproject.toml", "README.md", "DEVELOPERS.md"),
)
_FAMILIES = (
    "AddNot",
    "NumberReplacer",
    "ReplaceAndWithOr",
    "ReplaceOrWithAnd",
    "ReplaceTrueWithFalse",
    "ReplaceFalseWithTrue",
    "ReplaceBreakWithContinue",
    "ReplaceContinueWithBreak",
    "ReplaceUnaryOperator_Delete",
    "ReplaceComparisonOperator",
    "ZeroIterationForLoop",
    *(
        f"ReplaceBinaryOperator_{pair}"
        for pair in ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "BitAnd_BitOr", "BitOr_BitAnd")
    ),
)
_PASSED = 100
"""With which a run ends whose tests pass: what pytest says is added, so that a run that fails
otherwise is not taken for a test that does."""
_ENDS = (_PASSED, _PASSED + 1, _PASSED + 2, _PASSED + 4)
"""Tests pass, one fails, one cannot be read, or a file of them that was named cannot."""
_OPERATIONS = ("arith_expr", "term", "expr", "and_expr")
_LIBRARIES = ("hypothesis", "numpy", "pydantic", "scipy.optimize", "scipy.stats")
_OPTIONS = (
    *("-x", "-q", "-n", "0", "-p", "no:cacheprovider"),
    # What pytest says of the libraries that were imported before it.
    *("-W", "ignore::pytest.PytestAssertRewriteWarning"),
)
_UNLIKELY = ("Is", "IsNot")
"""No one writes `is` for `<` by mistake."""

_SAID = "pytest.txt"
"""In the copy: what pytest said of its latest run."""

Place = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Mutant:
    """One mistake.

    Attributes:
        module: the file that holds it, below `walkaround/`.
        line: its number there.
        before, after: that line, right and wrong.
        code: the whole file with the mistake in it.
    """

    module: str
    line: int
    before: str
    after: str
    code: str

    def __str__(self) -> str:
        return f"{self.module}:{self.line}\n    - {self.before}\n    + {self.after}"


def draw(package: str, size: int, chance: Random) -> list[Mutant]:
    """As many mutants of a package as are asked for, each at another place of its code."""
    places: dict[tuple[Path, Place], list[tuple[str, int]]] = defaultdict(list)
    for path in sorted((ROOT / "walkaround" / package).rglob("*.py")):
        for place, operator, number in _mistakes(path.read_text(encoding="utf-8")):
            places[path, place].append((operator, number))
    drawn = []
    for path, place in chance.sample(sorted(places), len(places)):
        right = path.read_text(encoding="utf-8")
        operator, number = chance.choice(places[path, place])
        wrong = mutate_code(right, get_operator(operator)(), number)
        if wrong is None or not _is_another(wrong, right):
            continue
        pairs = zip(right.splitlines(), wrong.splitlines(), strict=False)
        line = next(at for at, (a, b) in enumerate(pairs, 1) if a != b)
        before, after = (text.splitlines()[line - 1].strip() for text in (right, wrong))
        module = path.relative_to(ROOT / "walkaround").as_posix()
        drawn.append(Mutant(module, line, before, after, wrong))
        if len(drawn) == size:
            break
    return drawn


def _is_another(wrong: str, right: str) -> bool:
    """Whether it is a program at all, and says something else."""
    try:
        return ast.dump(ast.parse(wrong)) != ast.dump(ast.parse(right))
    except SyntaxError:
        return False


def _mistakes(code: str) -> Iterator[tuple[Place, str, int]]:
    """Every mistake that can be made: where, by which operator, its how many-th."""
    spared = _spared(code)
    nodes = list(ast_nodes(get_ast(code)))
    for name in sorted(operator_names()):
        short = name.partition("/")[2]
        if not short.startswith(_FAMILIES) or short.endswith(_UNLIKELY):
            continue
        operator, number = get_operator(name)(), 0
        for node in nodes:
            # The star of a signature is no product.
            around = node.parent.type if node.parent else ""
            is_star = "BinaryOperator" in name and around not in _OPERATIONS
            for position in operator.mutation_positions(node):
                start = position[0] if isinstance(position[0][0], int) else position[0][0]
                if not is_star and not any(first <= start < last for first, last in spared):
                    yield start, name, number
                number += 1


def _spared(code: str) -> list[tuple[Place, Place]]:
    """Where annotations and decorators stand."""
    nodes: list[ast.expr | None] = []
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, ast.AnnAssign | ast.arg):
            nodes.append(node.annotation)
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            nodes += node.decorator_list
            nodes.append(getattr(node, "returns", None))
    return [
        ((n.lineno, n.col_offset), (n.end_lineno or 0, n.end_col_offset or 0)) for n in nodes if n
    ]


class Trial:
    """A copy of the project in which mistakes are made, one after the other.

    Each run of the tests is a fork of one process that has imported pytest and the libraries: that
    takes longer than most of the runs themselves.
    """

    def __init__(self, folder: Path, tests: Sequence[str]) -> None:
        """Copy the project to this folder, and run these of its tests once as they are.

        Raises:
            AssertionError: they fail already.
        """
        self._folder, self._tests = folder, tests
        self._forks = get_context("forkserver")
        self._forks.set_forkserver_preload([*_LIBRARIES, __name__])
        for name in _COPIED:
            source = ROOT / name
            if source.is_dir():
                copytree(source, folder / name, ignore=ignore_patterns(".*"))
            else:
                (folder / name).write_bytes(source.read_bytes())
        began_s = time.monotonic()
        passes = self._passes(tests, None, compiles=True)
        said = (folder / _SAID).read_text(encoding="utf-8", errors="replace")
        assert passes, f"{tests} fail without a mutant:\n{said[-2000:]}"
        self._patience_s = 60 + 5 * (time.monotonic() - began_s)

    def is_killed(self, mutant: Mutant) -> bool:
        """Whether a test fails, or goes on far longer than without the mistake."""
        path = self._folder / "walkaround" / mutant.module
        right = path.read_text(encoding="utf-8")
        # What was compiled before counts as fresh if neither its second nor its size has changed.
        for compiled in path.parent.glob(f"__pycache__/{path.stem}.*"):
            compiled.unlink()
        path.write_text(mutant.code, encoding="utf-8")
        try:
            own = f"tests/{mutant.module.removesuffix(path.name)}test_{path.name}"
            first = [own] if (self._folder / own).exists() else []
            return not self._passes([*first, *self._tests], self._patience_s, compiles=False)
        finally:
            path.write_text(right, encoding="utf-8")

    def _passes(self, tests: Sequence[str], timeout_s: float | None, *, compiles: bool) -> bool:
        run = self._forks.Process(target=_run, args=(self._folder, tests, compiles))
        run.start()
        run.join(timeout_s)
        if run.is_alive():
            run.kill()
            run.join()
            return False
        assert run.exitcode in _ENDS, f"pytest ended with {run.exitcode}"
        return run.exitcode == _PASSED


def _run(folder: Path, tests: Sequence[str], compiles: bool) -> None:
    """Run tests of the copy in this process, and end it with pytest's result."""
    os.chdir(folder)
    with Path(_SAID).open("w", encoding="utf-8") as said:
        os.dup2(said.fileno(), 1)
        os.dup2(said.fileno(), 2)
    os.environ["PYTHONPATH"] = str(folder)
    sys.path.insert(0, str(folder))
    sys.dont_write_bytecode = not compiles
    # The copy's tests have helpers of their own.
    for name in [each for each in sys.modules if each.partition(".")[0] == "support"]:
        del sys.modules[name]
    sys.exit(_PASSED + int(pytest.main([*_OPTIONS, *tests])))
