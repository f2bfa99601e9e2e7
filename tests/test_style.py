"""Lint, format and types hold over the whole project, as pyproject.toml asks."""

from __future__ import annotations

import subprocess
import sys
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
