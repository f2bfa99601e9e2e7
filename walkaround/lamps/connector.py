"""The connectors of the connector table: which contact does what, and how far that is known."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from walkaround.base.message import Message, Text
from walkaround.base.toml_model import Id, Written
from walkaround.lamps.feeds import PinFunction


class Pin(Written):
    """One contact; `p` says whether its function was read (r) or is from memory (m).

    `doubt` says why its meaning is uncertain; such a pin is metered before it is energised. A rule
    may have settled it: then only vehicles made before `doubt_made_before` are in doubt.
    """

    pin: Annotated[str, Field(pattern=r"^[A-Za-z0-9]+$")]
    fn: PinFunction
    function: str
    colour: str = ""
    gauge: str = ""
    us_circuit: str = ""
    p: Literal["r", "m"]
    doubt: str = ""
    doubt_made_before: date | None = None


class Connector(Written):
    """One wiring of a connector shell; `other_volts`: voltages its standard allows besides.

    `shares_shell`: ids of the wirings that fit the same shell and do not fit this one.
    """

    id: Id
    standard: str
    title: str
    nominal_volts: Literal[12, 24]
    other_volts: tuple[Literal[12, 24], ...] = ()
    pin_count: int = Field(ge=1, strict=True)
    source: str
    provenance: str
    rating: str = ""
    warning: str = ""
    shares_shell: tuple[Id, ...] = ()
    pins: tuple[Pin, ...]

    def as_of(self, made: date) -> Connector:
        """Give the connector of a vehicle made on this day, without the doubts settled by then."""
        pins = tuple(
            pin.model_copy(update={"doubt": ""})
            if pin.doubt_made_before and made >= pin.doubt_made_before
            else pin
            for pin in self.pins
        )
        return self.model_copy(update={"pins": pins})

    @property
    def name(self) -> Message:
        """Its title, to be said."""
        return Message(id=f"connectors/{self.id}/title", written=self.title)

    @property
    def caution(self) -> Text:
        """Its warning, to be said; empty if it has none."""
        if not self.warning:
            return ""
        return Message(id=f"connectors/{self.id}/warning", written=self.warning)

    def said_of(self, pin: Pin, key: Literal["function", "doubt"]) -> Message:
        """What the file says of one of its pins."""
        return Message(id=f"connectors/{self.id}/{pin.pin}/{key}", written=getattr(pin, key))

    @property
    def functions(self) -> frozenset[PinFunction]:
        """The pin functions that this connector has."""
        return frozenset(pin.fn for pin in self.pins)

    @property
    def feeds_lamps(self) -> bool:
        """Whether it is the one that a vehicle's lamps hang on, and not one beside it."""
        return bool(self.functions & {"TAIL", "TAIL_L"})


class ConnectorTable(Written):
    """The file that holds the connectors, as [[connector]] tables."""

    connectors: tuple[Connector, ...] = Field(validation_alias="connector")
