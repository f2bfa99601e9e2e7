"""The small mistakes that the soak makes in the core are what it says they are."""

from __future__ import annotations

import ast
from difflib import unified_diff
from pathlib import Path
from random import Random

import pytest
from support.mutants import ROOT, Mutant, Trial, draw

FIRST = draw("brakes", 8, Random(1))


def test_a_mutant_is_a_program_with_one_place_of_it_changed() -> None:
    assert len({(each.module, each.code) for each in FIRST}) == 8
    for each in FIRST:
        right = (ROOT / "walkaround" / each.module).read_text(encoding="utf-8")
        assert ast.parse(each.code)
        changes = [*unified_diff(right.splitlines(), each.code.splitlines(), n=0, lineterm="")][2:]
        assert [line for line in changes if line[0] == "@"][1:] == []
        assert each.after != each.before == right.splitlines()[each.line - 1].strip()


def test_the_same_seed_draws_the_same_mutants() -> None:
    assert draw("brakes", 8, Random(1)) == FIRST


def test_a_mistake_that_a_test_sees_is_killed_and_one_that_none_sees_is_not(tmp_path: Path) -> None:
    where = "brakes/linings.py"
    right = (ROOT / "walkaround" / where).read_text(encoding="utf-8")
    trial = Trial(tmp_path, ["tests/brakes/test_linings.py"])
    wrong = Mutant(where, 1, "", "", right.replace("0.125", "0.25"))
    same = Mutant(where, 1, "", "", f"{right}\n# no more\n")
    assert (trial.is_killed(wrong), trial.is_killed(same)) == (True, False)


def test_tests_that_fail_already_are_told_with_what_pytest_said(tmp_path: Path) -> None:
    with pytest.raises(
        AssertionError, match=r"without a mutant(.|\n)*not found: tests/no_such\.py"
    ):
        Trial(tmp_path, ["tests/no_such.py"])
