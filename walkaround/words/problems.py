"""What went wrong, as a screen says it in its own language."""

from __future__ import annotations

from walkaround.base.errors import InputError, Problem, WalkaroundError, in_one_line
from walkaround.words.language import Words


def error_text(error: WalkaroundError, words: Words) -> str:
    """Say what an error says; of several problems each in a line of its own."""
    if isinstance(error, InputError):
        return "\n".join(problem_text(problem, words) for problem in error.problems)
    return words.text(error.text)


def problem_text(problem: Problem, words: Words) -> str:
    """Say where a problem is, what is wrong and how to mend it."""
    return in_one_line(words.text(problem.text))
