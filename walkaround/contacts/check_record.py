"""One check of a cable or a socket, as it is kept."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from walkaround.base.clock import Moment
from walkaround.base.message import Message
from walkaround.contacts.socket import Light

CheckKind = Literal["cable", "socket"]
GladhandResult = Literal["ok", "defect", ""]
"""What was found of air at a gladhand; empty where it was not looked at."""
MOST_NAME_CHARS = 60


class ContactCheck(BaseModel):
    """A check that was made.

    Attributes:
        name: of the cable, or of the tow vehicle.
        vehicle: the tow vehicle's id; empty for a cable.
        connector: its id.
        reached, weak: what was told of a cable, as `cable_faults` takes it.
        seen: what was told of a socket, as `socket_faults` takes it.
        red, blue: air at the gladhands of a tow vehicle.
        faults: what was wrong, as it was told then.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    kind: CheckKind
    name: str = Field(min_length=1, max_length=MOST_NAME_CHARS)
    vehicle: str = ""
    connector: str
    at: Moment
    who: str = Field(max_length=80)
    reached: Mapping[str, tuple[str, ...]] = Field(default_factory=dict)
    weak: tuple[str, ...] = ()
    seen: Mapping[str, Mapping[str, Light]] = Field(default_factory=dict)
    red: GladhandResult = ""
    blue: GladhandResult = ""
    faults: tuple[Message, ...] = ()
