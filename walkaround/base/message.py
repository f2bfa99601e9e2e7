"""A message before it is put into a language: its id, and the values that go into it.

The core decides what is said; how it reads is in the message files of `words/`, one folder a
language, in Fluent's syntax (https://projectfluent.org). A plan keeps messages, not sentences, so a
walk begun in one language reads in any other. Three things may stand where a text is wanted:

    str       words that a person typed, or that an older record holds: shown as they are
    Message   a message by its id; with `written`, a checklist's own text, whose translation is
              looked up by the id and which stands for itself where there is none

Numbers with a unit go in as a `Quantity`, so that the reader's unit is chosen last.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from typing import Literal, TypeAlias, Union

from pydantic import BaseModel, ConfigDict, Field

from walkaround.base.units import WRITTEN_QUANTITY


class Quantity(BaseModel):
    """A number with its unit: psi gauge, psi/min, inches, metres; degrees Celsius, kg, litres, mm.

    Attributes:
        decimals: how many are shown, where the unit's usual ones do not do.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    value: float
    unit: Literal["psi", "psi_per_min", "in", "m", "celsius", "kg", "l", "l_per_min", "bore_mm"]
    decimals: int | None = None


Filling: TypeAlias = Union[int, float, str, Quantity, "Message"]
Argument: TypeAlias = Filling | tuple[Filling, ...]
"""What may go into a message; a tuple is said as a list: "left, right and rear"."""


class Message(BaseModel):
    """One thing to say.

    Attributes:
        id: of a message in the message files: small letters, digits and hyphens; or, of a
            checklist's own text, the path to it: `air_brakes_trailer/lines_on/title`.
        args: what goes into it, by the name of its placeholder.
        written: a checklist's own text, with its placeholders.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    args: Mapping[str, Argument] = Field(default_factory=dict)
    written: str = ""

    def __hash__(self) -> int:
        return hash((self.id, self.written, tuple(self.args)))

    def __str__(self) -> str:
        return _reader(self)


Text: TypeAlias = str | Message
"""A text for people."""


def message(id_: str, /, **args: Argument) -> Message:
    """Make the message of that id with these arguments."""
    return Message(id=id_, args=args)


def unfilled_placeholders(template: str, placeholders: Collection[str] = ()) -> list[str]:
    """Find the placeholders of a written text that nothing fills: `{110 pounds}`, `{`.

    Args:
        template: a text as a file has it.
        placeholders: the names that are filled where it is said; a quantity fills itself.
    """
    return [
        placeholder[0]
        for placeholder in dict.fromkeys(_PLACEHOLDER.findall(template))
        if placeholder[1] not in placeholders and not WRITTEN_QUANTITY.fullmatch(placeholder[1])
    ]


_PLACEHOLDER = re.compile(r"(\{([^{}]*)\}?|\})")


def plainly(unread: Message) -> str:
    """Write a message without a language: as it was written, or its id and what goes into it."""
    args = ", ".join(f"{name}={value}" for name, value in unread.args.items())
    return unread.written or (f"{unread.id} ({args})" if args else unread.id)


_reader: Callable[[Message], str] = plainly


def read_in_logs_by(reader: Callable[[Message], str]) -> None:
    """Let this turn messages into text where no page asks: in logs, errors and the terminal."""
    global _reader
    _reader = reader
