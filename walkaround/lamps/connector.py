"""The connectors of the connector table: which contact does what, and how far that is known."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator, Field, model_validator

from walkaround.base.message import Message, Text
from walkaround.base.provenance import Provenance, Sourced
from walkaround.base.toml_model import Id, Written
from walkaround.lamps.feeds import PinFunction
from walkaround.rules.lamp_rule import LampKind


class Pin(Written):
    """One contact of a connector.

    Attributes:
        p: whether its function was read (r) or is from memory (m).
        colour_p: the same of its wire's color, where that differs; None as `p`.
        doubt: why its meaning is uncertain; such a pin is metered before it is energised.
        doubt_made_before: where a rule has settled the meaning since, only vehicles made before
            this day are in doubt.
    """

    pin: Annotated[str, Field(pattern=r"^[A-Za-z0-9]+$")]
    fn: PinFunction
    function: str
    colour: str = ""
    gauge: str = ""
    p: Literal["r", "m"]
    colour_p: Literal["r", "m"] | None = None
    doubt: str = ""
    doubt_made_before: date | None = None

    @model_validator(mode="before")
    @classmethod
    def _without_tag(cls, pin: Any) -> Any:
        """Leave out a key that was asked for once, so that files that have it go on being read."""
        return {k: v for k, v in pin.items() if k != "us_circuit"} if isinstance(pin, dict) else pin


def _first_kind(value: object) -> object:
    """Read the provenance of a table of an earlier form, where any words could stand.

    What does not begin with a kind was looked up by nobody.
    """
    if not isinstance(value, str):
        return value
    return next((kind for kind in get_args(Provenance) if value.startswith(kind)), "memory")


class Connector(Sourced):
    """One wiring of a connector shell.

    Attributes:
        other_volts: voltages its standard allows besides.
        shares_shell: ids of the wirings that fit the same shell and do not fit this one.
        feeds: kinds of lamp that are on another contact here than elsewhere.
    """

    id: Id
    standard: str
    title: str
    nominal_volts: Literal[12, 24]
    other_volts: tuple[Literal[12, 24], ...] = ()
    pin_count: int = Field(ge=1, strict=True)
    provenance: Annotated[Provenance, BeforeValidator(_first_kind)]
    rating: str = ""
    warning: str = ""
    shares_shell: tuple[Id, ...] = ()
    feeds: Mapping[LampKind, PinFunction] = Field(default_factory=dict)
    pins: tuple[Pin, ...]

    def as_of(self, date_made: date) -> Connector:
        """Give the connector of a vehicle made on this day, without the doubts settled by then."""
        pins = tuple(
            pin.model_copy(update={"doubt": ""})
            if pin.doubt_made_before and date_made >= pin.doubt_made_before
            else pin
            for pin in self.pins
        )
        return self.model_copy(update={"pins": pins})

    @property
    def name(self) -> Message:
        """Its title, to be said."""
        return Message(id=f"connectors/{self.id}/title", written=self.title)

    @property
    def rated(self) -> Text:
        """What its contacts may carry, to be said; empty if its file does not tell."""
        if not self.rating:
            return ""
        return Message(id=f"connectors/{self.id}/rating", written=self.rating)

    @property
    def caution(self) -> Text:
        """Its warning, to be said; empty if it has none."""
        if not self.warning:
            return ""
        return Message(id=f"connectors/{self.id}/warning", written=self.warning)

    def said_of(self, pin: Pin, key: Literal["function", "doubt"]) -> Message:
        """Tell what the file says of one of its pins."""
        return Message(id=f"connectors/{self.id}/{pin.pin}/{key}", written=getattr(pin, key))

    @property
    def functions(self) -> frozenset[PinFunction]:
        """The pin functions that this connector has."""
        return frozenset(pin.fn for pin in self.pins)

    @property
    def feeds_lamps(self) -> bool:
        """Whether it is the one that feeds a vehicle's lamps, and not one beside it."""
        return bool(self.functions & {"TAIL", "TAIL_L"})


class ConnectorTable(Written):
    """The file that holds the connectors, as [[connector]] tables."""

    connectors: tuple[Connector, ...] = Field(validation_alias="connector")
