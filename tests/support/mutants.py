"""Programs with one small mistake in them, and whether the tests of their package notice.

The mistakes are cosmic-ray's operators: a condition turned round, a comparison or a sign changed, a
number one more or less, a loop that is not run. Left out is what is no behavior or no mistake that
anybody makes: annotations, which nobody reads while the program runs, decorators, which say what
kind of record a class is, unions of types, without which no module could be read, and a word that
is asked to come before or after another in the alphabet where it was asked to be the same.
"""

from __future__ import annotations

import ast
import json
import os
import resource
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from random import Random
from shutil import copytree, ignore_patterns
from signal import SIGXCPU

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
_LIBRARIES = (
    *("hypothesis", "numpy", "pydantic", "scipy.optimize", "scipy.stats", "pint", "fluids"),
    *("CoolProp.CoolProp", "babel.lists", "fluent.runtime", "fluent.syntax"),
)
_OPTIONS = (
    *("-x", "-q", "-n", "0", "-p", "no:cacheprovider", "--hypothesis-profile", "no_shrinking"),
    # What pytest says of the libraries that were imported before it.
    *("-W", "ignore::pytest.PytestAssertRewriteWarning"),
)
_UNLIKELY = ("Is", "IsNot")
"""No one writes `is` for `<` by mistake."""
_ORDERS = ("Lt", "LtE", "Gt", "GtE")

_SAID = "pytest.txt"
"""In the copy: what pytest said of its latest run."""
_TOOK = "took.json"
"""In the copy: how many seconds each test took in the run without a mutant."""
_DEADLOCK_S = 600
"""A run that waits forever uses up no time of the processor."""

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
            is_word = node.type == "comparison" and any(n.type == "string" for n in node.children)
            is_odd = is_star or (is_word and short.endswith(_ORDERS))
            for position in operator.mutation_positions(node):
                start = position[0] if isinstance(position[0][0], int) else position[0][0]
                if not is_odd and not any(first <= start < last for first, last in spared):
                    yield start, name, number
                number += 1


def _spared(code: str) -> list[tuple[Place, Place]]:
    """Where annotations, decorators and unions of types stand."""
    nodes: list[ast.expr | None] = []
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, ast.AnnAssign | ast.arg):
            nodes.append(node.annotation)
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            nodes += node.decorator_list
            nodes.append(getattr(node, "returns", None))
        elif isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr):
            right = node.right.id if isinstance(node.right, ast.Name) else "a"
            nodes.append(None if right.islower() or right.isupper() else node)
    return [
        ((n.lineno, n.col_offset), (n.end_lineno or 0, n.end_col_offset or 0)) for n in nodes if n
    ]


class Trial:
    """A copy of the project in which mistakes are made, one after the other.

    Each run of the tests is a fork of one process that has imported pytest and the libraries: that
    takes longer than most of the runs themselves. The tests run in the order of how long they take,
    until one fails.
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
        passes = self._passes(None)
        said = (folder / _SAID).read_text(encoding="utf-8", errors="replace")
        assert passes, f"{tests} fail without a mutant:\n{said[-2000:]}"
        took_s = sum(json.loads((folder / _TOOK).read_text(encoding="utf-8")).values())
        self._patience_s = 30 + 3 * int(took_s)

    def is_killed(self, mutant: Mutant) -> bool:
        """Whether a test fails, or goes on far longer than without the mistake."""
        path = self._folder / "walkaround" / mutant.module
        right = path.read_text(encoding="utf-8")
        # What was compiled before counts as fresh if neither its second nor its size has changed.
        for compiled in path.parent.glob(f"__pycache__/{path.stem}.*"):
            compiled.unlink()
        path.write_text(mutant.code, encoding="utf-8")
        try:
            return not self._passes(self._patience_s)
        finally:
            path.write_text(right, encoding="utf-8")

    def _passes(self, patience_s: int | None) -> bool:
        run = self._forks.Process(target=_run, args=(self._folder, self._tests, patience_s))
        run.start()
        run.join(_DEADLOCK_S)
        if run.is_alive():
            run.kill()
            run.join()
            return False
        assert run.exitcode in (*_ENDS, -SIGXCPU), f"pytest ended with {run.exitcode}"
        return run.exitcode == _PASSED


class _QuickestFirst:
    """What has pytest run the tests in the order of how long each took."""

    def __init__(self) -> None:
        told = Path(_TOOK)
        self._before: dict[str, float] = (
            json.loads(told.read_text("utf-8")) if told.exists() else {}
        )
        self.took: Counter[str] = Counter()

    @pytest.hookimpl(wrapper=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> Iterator[None]:
        yield
        items.sort(key=lambda item: self._before.get(item.nodeid, 0.0))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.took[report.nodeid] += report.duration


def _run(folder: Path, tests: Sequence[str], patience_s: int | None) -> None:
    """Run tests of the copy in this process, and end it with pytest's result.

    The first run, which has no limit, compiles the modules and measures the tests. The limit is
    one of the processor's time, which passes no faster on a busy machine.
    """
    os.chdir(folder)
    with Path(_SAID).open("w", encoding="utf-8") as said:
        os.dup2(said.fileno(), 1)
        os.dup2(said.fileno(), 2)
    os.environ["PYTHONPATH"] = str(folder)
    sys.path.insert(0, str(folder))
    # The copy's tests have helpers of their own.
    for name in [each for each in sys.modules if each.partition(".")[0] == "support"]:
        del sys.modules[name]
    order = _QuickestFirst()
    if patience_s is not None:
        sys.dont_write_bytecode = True
        resource.setrlimit(resource.RLIMIT_CPU, (patience_s, resource.RLIM_INFINITY))
    end = int(pytest.main([*_OPTIONS, *tests], plugins=[order]))
    if patience_s is None:
        Path(_TOOK).write_text(json.dumps(order.took), encoding="utf-8")
    sys.exit(_PASSED + end)
