"""What a contact feeds: from a pin function to its circuit, from a lamp to what can feed it."""

from __future__ import annotations

from typing import Literal, NamedTuple

from walkaround.base.message import Message, message
from walkaround.lamps.required_lamps import Lamp

PinFunction = Literal[
    "MARK", "TAIL", "TAIL_L", "TAIL_R", "L", "LSTOP", "R", "RSTOP", "STOP", "LST_ONLY",
    "RST_ONLY", "REV", "BO_MARK", "BO_STOP", "ABS", "BO_SW", "FOG", "AUX", "PERM", "IGN", "BRK",
    "GND", "NC", "CAN_H", "CAN_L", "SIG",
]  # fmt: skip


class Role(NamedTuple):
    """The circuit of a pin function: its id, and whether it carries a turn signal."""

    id: str
    flashes: bool = False

    @property
    def name(self) -> Message:
        """What the circuit is called."""
        return message(f"circuit-{self.id.replace('_', '-')}")


# In walking order, lamp circuits first; HEAD, PARK and BO_DRIVE are on no connector. GND, NC,
# CAN_H, CAN_L and SIG feed nothing: a SIG is a signal out of the trailer, which is never fed.
ROLES: dict[str, Role] = {
    "MARK": Role("marker"),
    "TAIL": Role("tail"),
    "TAIL_L": Role("tail_left"),
    "TAIL_R": Role("tail_right"),
    "L": Role("left_turn", flashes=True),
    "LSTOP": Role("left_stop_turn", flashes=True),
    "R": Role("right_turn", flashes=True),
    "RSTOP": Role("right_stop_turn", flashes=True),
    "STOP": Role("stop"),
    "LST_ONLY": Role("left_stop"),
    "RST_ONLY": Role("right_stop"),
    "REV": Role("backup"),
    "BO_MARK": Role("blackout_marker"),
    "BO_STOP": Role("blackout_stop"),
    "ABS": Role("abs"),
    "HEAD": Role("headlamp"),
    "PARK": Role("parking"),
    "BO_DRIVE": Role("blackout_drive"),
    "BO_SW": Role("blackout_switch"),
    "FOG": Role("fog"),
    "AUX": Role("aux"),
    "PERM": Role("permanent"),
    "IGN": Role("ignition"),
    "BRK": Role("brake"),
}
# These pins are tied together in the vehicle; other pins of one function stay apart.
JOINED = frozenset({"BO_MARK"})

# Which pin functions can feed a kind of lamp, best first; {s} is the lamp's own side, L or R; a
# center lamp hangs with the left, as ISO 1185 puts the licence-plate lamp on 58L.
# Without a marker pin, marker lamps hang on the tail circuit, as the ISO tables and
# MIL-S-62183C 3.11.5 word their tail pins ("tail, clearance, licence").
_TAIL = ("TAIL", "TAIL_{s}")
_FEEDS: dict[str, tuple[str, ...]] = {
    "headlamp": ("HEAD",),
    "parking": ("PARK", *_TAIL),
    "turn": ("{s}STOP", "{s}"),
    "turn at the front": ("{s}",),
    "tail": _TAIL,
    "licence_plate": _TAIL,
    "stop": ("{s}STOP", "STOP", "{s}ST_ONLY"),
    "stop in the middle": ("STOP", "{s}STOP", "{s}ST_ONLY"),
    "clearance": ("MARK", *_TAIL),
    "identification": ("MARK", *_TAIL),
    "side_marker": ("MARK", *_TAIL),
    "backup": ("REV",),
    "abs": ("ABS",),
    "blackout_marker": ("BO_MARK",),
    "blackout_stop": ("BO_STOP",),
    "blackout_drive": ("BO_DRIVE",),
}


def feeds_of(lamp: Lamp) -> tuple[str, ...]:
    """List the pin functions that can feed a lamp, best first; none where its kind cannot tell."""
    side = "R" if "right" in lamp.place.split("_") else "L"
    kind = lamp.kind
    if kind == "turn" and lamp.place.startswith("front"):
        kind = "turn at the front"
    # A high-mounted stop lamp never flashes with a turn signal: 571.108 S6.3.1, Table I-a.
    if kind == "stop" and lamp.place.endswith("centre"):
        kind = "stop in the middle"
    functions = _FEEDS.get(kind, ())
    return tuple(fn.format(s=side) for fn in functions)


def cluster_of(lamp: Lamp) -> str:
    """Name the ground point that the lamps at one corner, end or side share."""
    return lamp.spot if lamp.spot in ("left_side", "right_side") else lamp.place
