"""Everything that can go wrong, and whose mistake it was.

    WalkaroundError
    ├── InputError        someone wrote a file or a value that does not hold (exit 2)
    ├── NotNowError       an event that the walk does not allow in its present state
    │   └── LateError     it is about a step that is no longer the one being asked
    └── MachineError      the machine failed us: disk full, folder not writable, port taken (exit 2)

Every message is one sentence that names what is wrong, where, and how to mend it. Each error
keeps it as a `Text`, so that a screen can show it in its own language; `str` reads it as logs do.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from walkaround.base.message import Message, Text, message
from walkaround.base.plaintext import written_out


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with something that was written.

    Attributes:
        where: the file (or `argument`, `log`) it stands in.
        key: the key, step id or line inside it; empty when the whole file is meant.
        what: what is wrong, without a full stop.
        mend: how to put it right, without a full stop.
    """

    where: Text
    key: str
    what: Text
    mend: Text

    @property
    def text(self) -> Message:
        """The whole of it in one sentence."""
        place = message("place-in-file", where=self.where, key=self.key) if self.key else self.where
        return message("problem", place=place, what=self.what, mend=self.mend)

    def __str__(self) -> str:
        return in_one_line(str(self.text))


def in_one_line(sentence: str) -> str:
    """Write out a sentence that quotes a file: one line, nothing that drives a terminal."""
    return written_out(sentence).replace("\n", "\\n")


class WalkaroundError(Exception):
    """Any error that walkaround raises on purpose; `text` is its sentence."""

    def __init__(self, text: Text) -> None:
        self.text = text
        super().__init__(text)


class InputError(WalkaroundError):
    """Something written by a person does not hold; carries every problem found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class NotNowError(WalkaroundError):
    """The walk does not allow this event in its present state; nothing was changed."""


class LateError(NotNowError):
    """The event is about a step that is not being asked: a second tap, a page that lagged."""


class MachineError(WalkaroundError):
    """Disk, folder, port or process failed; the message says what to do about it."""
