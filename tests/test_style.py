"""Lint, format and types hold over the whole project, as pyproject.toml asks."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
LONGEST = 300
"""Lines of a module; one idea needs no more."""


@pytest.mark.parametrize("tool", ["ruff check", "ruff format --check", "mypy"])
def test_the_project_passes(tool: str) -> None:
    command = [sys.executable, "-m", *tool.split()]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize(
    "path", sorted((ROOT / "walkaround").rglob("*.py")), ids=lambda path: path.stem
)
def test_a_module_holds_one_idea_and_tells_it(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.startswith('"""')
    assert len(text.splitlines()) <= LONGEST


def undocumented(node: ast.Module | ast.ClassDef, owner: str = "") -> Iterator[str]:
    """The public classes, functions and methods without a docstring; a port's methods need none."""
    port = isinstance(node, ast.ClassDef) and any("Protocol" in ast.unparse(b) for b in node.bases)
    for child in node.body:
        named = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef)
        if not named or port or child.name.startswith("_"):
            continue
        if not ast.get_docstring(child):
            yield f"{owner}{child.name}"
        if isinstance(child, ast.ClassDef):
            yield from undocumented(child, f"{child.name}.")


@pytest.mark.parametrize(
    "path", sorted((ROOT / "walkaround").rglob("*.py")), ids=lambda path: path.stem
)
def test_every_public_name_says_what_it_is(path: Path) -> None:
    assert [*undocumented(ast.parse(path.read_text(encoding="utf-8")))] == []
