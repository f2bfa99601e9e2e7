"""What went wrong, as a screen says it: in its own language and units, a line each."""

from __future__ import annotations

from support.english import ENGLISH

from walkaround.base.errors import InputError, MachineError, Problem
from walkaround.base.message import Quantity, message
from walkaround.base.units import Units
from walkaround.words.language import Words
from walkaround.words.problems import error_text, problem_text

FILE = """
place-in-file = { $where } ({ $key })
problem = { $place } | { $what } | { $mend }
too-high = over { $limit }
lower = lower it
"""
WORDS = Words("en", [FILE])
METRIC = WORDS.shown_in(Units("kPa", "mm"))
LIMIT = message("too-high", limit=Quantity(value=100, unit="psi"))


def test_a_problem_is_said_in_the_language_and_the_units_of_who_reads_it() -> None:
    """NIST SP 811 (2008), B.8: 1 psi = 6.894757 kPa."""
    problem = Problem("own.toml", "step 2.set", LIMIT, message("lower"))
    assert problem_text(problem, WORDS) == "own.toml (step 2.set) | over 100 psi | lower it"
    assert problem_text(problem, METRIC) == "own.toml (step 2.set) | over 689 kPa | lower it"


def test_what_a_file_holds_drives_no_screen_and_no_terminal() -> None:
    problem = Problem("a\nb.toml", "", "holds \x1b[2J", "take it out")
    told = problem_text(problem, ENGLISH)
    assert "\n" not in told
    assert "\x1b" not in told
    assert told == str(problem)


def test_each_problem_of_an_error_is_a_line_and_any_other_error_one_sentence() -> None:
    limit = message("problem-is", value=Quantity(value=100, unit="psi"))
    two = InputError([Problem("a", "", limit, "lower it"), Problem("b", "", limit, "wait")])
    metric = ENGLISH.shown_in(METRIC.units)
    assert error_text(two, metric) == "a: is 689 kPa; lower it.\nb: is 689 kPa; wait."
    assert error_text(MachineError(limit), metric) == "is 689 kPa"
