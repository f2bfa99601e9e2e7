"""The rear socket of a tow vehicle: what each of its contacts gets from each switch in the cab.

What carries data, feeds the ABS or may move equipment is left alone: it is never probed here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from walkaround.base.message import Message, Text, message
from walkaround.lamps.connector import Connector
from walkaround.lamps.feeds import PinFunction

Light = Literal["bright", "dim"]
"""How a test lamp burns at a contact; one that stays dark is not told."""
LiveContacts = Mapping[str, Mapping[str, Light]]
"""What was seen: by switch, or `OFF`, the contacts that were live."""
OFF = "off"

SocketKind = Literal["missing", "low", "swapped", "joined", "back_fed", "always_on"]

_SWITCHES: Mapping[str, frozenset[PinFunction]] = {
    "lamps": frozenset({"MARK", "TAIL", "TAIL_L", "TAIL_R"}),
    "left_turn": frozenset({"L", "LSTOP"}),
    "right_turn": frozenset({"R", "RSTOP"}),
    "stop": frozenset({"STOP", "LST_ONLY", "RST_ONLY", "LSTOP", "RSTOP"}),
    "backup": frozenset({"REV"}),
    "blackout": frozenset({"BO_MARK"}),
    "blackout_stop": frozenset({"BO_STOP"}),
}
"""What each switch in a cab feeds. Where stop and turn share contacts, the pedal feeds both."""


class SocketSwitch(NamedTuple):
    """One switch of the cab and the contacts that it ought to feed."""

    id: str
    contacts: tuple[str, ...]

    @property
    def name(self) -> Message:
        """What to switch on."""
        return message(f"socket-switch-{self.id.replace('_', '-')}")


class SocketFault(NamedTuple):
    """One thing that is wrong at a socket.

    Attributes:
        kind: `missing`, a contact gets nothing from its switch; `low`, its lamp is dim;
            `swapped`, two switches feed each other's contacts; `joined`, either of two switches
            feeds both; `back_fed`, a contact gets current from a switch that is not its own;
            `always_on`, it is live with everything off.
        contacts: which.
        switches: which; none where everything was off.
    """

    kind: SocketKind
    contacts: tuple[str, ...]
    switches: tuple[str, ...] = ()

    @property
    def text(self) -> Message:
        """Say what is wrong: "Left turn: nothing at contact 3"."""
        names: tuple[Message, ...] = tuple(SocketSwitch(id_, ()).name for id_ in self.switches)
        return message(
            f"socket-fault-{self.kind.replace('_', '-')}", contacts=self.contacts, switches=names
        )


def switches_of(connector: Connector) -> tuple[SocketSwitch, ...]:
    """List what is switched on in the cab, one after the other, and what each ought to feed."""
    fed = {
        id_: tuple(pin.pin for pin in connector.pins if pin.fn in functions)
        for id_, functions in _SWITCHES.items()
    }
    return tuple(SocketSwitch(id_, contacts) for id_, contacts in fed.items() if contacts)


def probed_contacts(switches: Sequence[SocketSwitch]) -> tuple[str, ...]:
    """List the contacts that are looked at; no other is."""
    return tuple(dict.fromkeys(contact for switch in switches for contact in switch.contacts))


def unprobed_contacts(connector: Connector) -> tuple[Text, ...]:
    """List what is not probed, and why: "7, continuous ABS power"."""
    alone = {*(pin.pin for pin in connector.pins)} - {*probed_contacts(switches_of(connector))}
    return tuple(
        message("socket-left-alone", contact=pin.pin, use=connector.said_of(pin, "function"))
        for pin in connector.pins
        if pin.pin in alone and pin.fn not in ("GND", "NC")
    )


def socket_faults(
    switches: Sequence[SocketSwitch], live_at: LiveContacts
) -> tuple[SocketFault, ...]:
    """Say what is wrong at a socket; a switch that was not tried says nothing.

    Args:
        switches: as `switches_of` has them.
        live_at: the live contacts by switch; all but bright and dim ones were dark.
    """
    always = frozenset(live_at.get(OFF, {}))
    live = {
        switch.id: frozenset(live_at[switch.id]) - always
        for switch in switches
        if switch.id in live_at
    }
    tried_switches = [switch for switch in switches if switch.id in live_at]
    swapped = [
        (one, other)
        for at, one in enumerate(tried_switches)
        for other in tried_switches[at + 1 :]
        if _is_swapped(one, other, live)
    ]
    faults = [SocketFault("always_on", tuple(c for c in probed_contacts(switches) if c in always))]
    faults = [] if not always else faults
    of_swapped = {switch.id for pair in swapped for switch in pair}
    for one, other in swapped:
        contacts = (*one.contacts, *other.contacts)
        faults.append(SocketFault("swapped", contacts, (one.id, other.id)))
    for switch in tried_switches:
        faults += _missing_contact_faults(
            switch, live_at, always, live, swapped=switch.id in of_swapped
        )
    faults += _extra_contact_faults(tried_switches, live, of_swapped)
    return tuple(faults)


def _is_swapped(one: SocketSwitch, other: SocketSwitch, live: Mapping[str, frozenset[str]]) -> bool:
    mine, theirs = frozenset(one.contacts), frozenset(other.contacts)
    apart = not mine & theirs
    return apart and live[one.id] == theirs and live[other.id] == mine


def _missing_contact_faults(
    switch: SocketSwitch,
    live_at: LiveContacts,
    always: frozenset[str],
    live: Mapping[str, frozenset[str]],
    *,
    swapped: bool,
) -> Iterator[SocketFault]:
    missing = tuple(c for c in switch.contacts if c not in live[switch.id] and c not in always)
    if missing and not swapped:
        yield SocketFault("missing", missing, (switch.id,))
    at = live_at[switch.id]
    low = tuple(c for c, light in at.items() if light == "dim" and c in live[switch.id])
    if low:
        yield SocketFault("low", low, (switch.id,))


def _extra_contact_faults(
    tried_switches: Sequence[SocketSwitch], live: Mapping[str, frozenset[str]], of_swapped: set[str]
) -> Iterator[SocketFault]:
    """Yield contacts fed by a switch that is not theirs; of a pair once."""
    reported: set[frozenset[str]] = set()
    for switch in tried_switches:
        extra_contacts = live[switch.id] - frozenset(switch.contacts)
        if switch.id in of_swapped or not extra_contacts:
            continue
        for other in tried_switches:
            theirs = extra_contacts & frozenset(other.contacts)
            if other.id == switch.id or not theirs:
                continue
            extra_contacts -= theirs
            pair = frozenset({switch.id, other.id})
            both = live[other.id] & frozenset(switch.contacts) - frozenset(other.contacts)
            if both and pair not in reported:
                reported.add(pair)
                contacts = (*switch.contacts, *other.contacts)
                yield SocketFault("joined", contacts, (switch.id, other.id))
            elif pair not in reported:
                yield SocketFault("back_fed", tuple(sorted(theirs)), (switch.id,))
        if extra_contacts:
            yield SocketFault("back_fed", tuple(sorted(extra_contacts)), (switch.id,))
