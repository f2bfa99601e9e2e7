"""Power sources: what lights a vehicle's circuits, as data that people write.

A source has switches, a switch has positions besides off, a position lights circuits. A box in
hand, a cab, a helper in the cab are each a [[power_source]] table, and so is any other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Annotated, Literal

from pydantic import Field

from walkaround.base.message import Message, message
from walkaround.base.provenance import Sourced
from walkaround.base.toml_model import FileText, Flag, Id, Written
from walkaround.lamps.wiring import Circuit

Lit = Literal["steady", "flashing"]
Look = Literal["steady", "flashing", "dark"]
# Switched at each spot, the box in hand; in the cab, a trip each time; called out to a helper.
Where = Literal["spot", "cab", "called"]
# "turn.left", or "turn" for any position of that switch.
PositionReference = Annotated[str, Field(pattern=r"^[a-z0-9_]+(\.[a-z0-9_]+)?$")]

# Feeds that are always on, controls and switched inputs: no lamp is told by switching them.
NO_PART = frozenset({"abs", "aux", "permanent", "ignition", "brake", "blackout_switch"})


class Position(Written):
    """One position of a switch.

    Attributes:
        name: what it is called: "left turn".
        say: how it is set, as an order without a full stop: "turn switch left".
        lights: circuit ids and how they light; those a vehicle lacks are ignored.
        needs: of each switch named here, one of the positions named must be set as well.
        excludes: positions that cannot be had at once with this one; written on either side.
        keep: how it is kept with nobody in the cab, as an order; empty when it stays by itself.
        in_gear: a gear is in with it, so that a running engine would move the vehicle; where the
            file does not say, it is taken to be so if `backup` is lit.
    """

    id: Id
    name: FileText
    say: FileText
    lights: Mapping[Id, Lit] = Field(default_factory=dict)
    needs: tuple[PositionReference, ...] = ()
    excludes: tuple[PositionReference, ...] = ()
    keep: FileText = ""
    in_gear: Flag | None = None


class Switch(Written):
    """One switch: off, or in one of its positions."""

    id: Id
    name: FileText
    positions: tuple[Position, ...] = Field(validation_alias="position")


class PowerSource(Sourced):
    """A source of power that lights the circuits.

    It has a switch of its own for each circuit (`each_circuit`), or the same switches as another
    source of its file (`switches_of`), or those in its [[power_source.switch]] tables.
    """

    id: Id
    title: FileText
    where: Where
    each_circuit: Flag = False
    switches_of: str = ""
    switches: tuple[Switch, ...] = Field(default=(), validation_alias="switch")


class PowerTable(Written):
    """A file of power sources, as [[power_source]] tables."""

    sources: tuple[PowerSource, ...] = Field(validation_alias="power_source")

    def by_id(self) -> dict[str, PowerSource]:
        """Give the sources by id, each with its switches; asks for a table without problems.

        Their texts have become messages.
        """
        switches = {
            source.id: tuple(_said_switch(source, switch) for switch in source.switches)
            for source in self.sources
        }
        return {
            source.id: source.model_copy(
                update={
                    "title": Message(
                        id=f"power_sources/{source.id}/title", written=str(source.title)
                    ),
                    "switches": switches[source.switches_of or source.id],
                }
            )
            for source in self.sources
        }


def _said_switch(source: PowerSource, switch: Switch) -> Switch:
    place = f"power_sources/{source.id}/{switch.id}"
    positions = [
        position.model_copy(
            update={
                key: Message(id=f"{place}/{position.id}/{key}", written=text)
                for key in ("name", "say", "keep")
                if (text := getattr(position, key))
            }
        )
        for position in switch.positions
    ]
    name = Message(id=f"{place}/name", written=str(switch.name))
    return switch.model_copy(update={"name": name, "positions": tuple(positions)})


def takes_part(circuit: Circuit) -> bool:
    """Tell whether the circuit lights lamps when it is switched; continuous feeds do not."""
    return _role(circuit) not in NO_PART


def is_backup(circuit: Circuit) -> bool:
    """Tell whether it feeds backup lamps, which a cab lights by putting reverse in."""
    return _role(circuit) == "backup"


def is_blackout(circuit: Circuit) -> bool:
    """Tell whether it feeds blackout lamps, which are never lit beside service lamps."""
    return "blackout" in circuit.id.split("_")


def looks_wanted(circuit: Circuit) -> tuple[Lit, ...]:
    """List the looks a circuit must have: a combined stop and turn is steady and flashing."""
    if not circuit.flashes:
        return ("steady",)
    return ("steady", "flashing") if "stop" in circuit.id.split("_") else ("flashing",)


def switches_for(source: PowerSource, circuits: Sequence[Circuit]) -> tuple[Switch, ...]:
    """List the switches that matter to these circuits.

    Each position lights circuits of this vehicle, by their own ids, or is needed by one that does.
    """
    if source.each_circuit:
        return tuple(_own_switch(circuit) for circuit in circuits)
    lit = {
        (switch.id, position.id): _lit_here(position, circuits)
        for switch in source.switches
        for position in switch.positions
    }
    needed_positions = _with_needed_positions(
        source.switches, {place for place, lights in lit.items() if lights}
    )
    here = []
    for switch in source.switches:
        positions = tuple(
            position.model_copy(
                update={
                    "lights": lit[switch.id, position.id],
                    "in_gear": source.where != "spot" and _in_gear(position),
                }
            )
            for position in switch.positions
            if (switch.id, position.id) in needed_positions
        )
        if positions:
            here.append(switch.model_copy(update={"positions": positions}))
    return tuple(here)


def matches(reference: str, switch_id: str, position_id: str) -> bool:
    """Tell whether a reference in `needs` or `excludes` means this position."""
    return reference in (switch_id, f"{switch_id}.{position_id}")


def _in_gear(position: Position) -> bool:
    """Tell whether a gear is in: as the file says, else where backup lamps are lit."""
    if position.in_gear is not None:
        return position.in_gear
    return any(id_ == "backup" or id_.startswith("backup_") for id_ in position.lights)


def _role(circuit: Circuit) -> str:
    """Return the circuit's id without the pin that tells unjoined pins of a function apart."""
    return circuit.id.removesuffix(f"_{circuit.pins[0].lower()}") if circuit.pins else circuit.id


def _lit_here(position: Position, circuits: Iterable[Circuit]) -> dict[str, Lit]:
    lit_as: dict[str, Lit] = {}
    for circuit in circuits:
        look = position.lights.get(circuit.id) or position.lights.get(_role(circuit))
        if look:
            lit_as[circuit.id] = look
    return lit_as


def _own_switch(circuit: Circuit) -> Switch:
    """Make the switch of a box for one circuit."""
    name = circuit.name
    positions = [
        Position(
            id=look,
            name=name,
            say=message("rounds-on" if look == "steady" else "rounds-flashing", circuit=name),
            lights={circuit.id: look},
            in_gear=False,
        )
        for look in looks_wanted(circuit)
    ]
    return Switch(id=circuit.id, name=name, positions=tuple(positions))


def _with_needed_positions(
    switches: Sequence[Switch], added: set[tuple[str, str]]
) -> set[tuple[str, str]]:
    """Return these positions and all that they need, directly or not."""
    positions: set[tuple[str, str]] = set()
    while added:
        positions |= added
        needed = {
            need
            for switch, position in _places(switches)
            if (switch.id, position.id) in added
            for need in position.needs
        }
        added = {
            (switch.id, position.id)
            for switch, position in _places(switches)
            if any(matches(need, switch.id, position.id) for need in needed)
        } - positions
    return positions


def _places(switches: Iterable[Switch]) -> Iterator[tuple[Switch, Position]]:
    return ((switch, position) for switch in switches for position in switch.positions)
