"""The load check: tail, turn and stop lamps on together, to show what single circuits hide.

A poor ground carries one circuit's current well enough and fails under that of all.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from walkaround.rounds.power_source import Position, Switch
from walkaround.rounds.switch_settings import Choice

_KINDS = frozenset({"tail", "turn", "stop"})


def heaviest(options: Iterable[Choice], circuit_ids: Sequence[str]) -> Choice | None:
    """Of the settings with tail, turn and stop on, the one with most of these circuits on."""
    tail, turn, stop = (
        sum(1 << place for place, id_ in enumerate(circuit_ids) if kind in _kinds(id_))
        for kind in ("tail", "turn", "stop")
    )

    def is_load(option: Choice) -> bool:
        # A combined circuit is a turn signal while it flashes, a stop lamp while it is steady.
        turning = option.lit & turn & ~stop | option.flashing & turn & stop
        stopping = option.lit & stop & ~turn | option.steady & turn & stop
        return bool(option.lit & tail and turning and stopping)

    return min(
        filter(is_load, options),
        key=lambda option: (-(option.lit & (tail | turn | stop)).bit_count(), option.trouble),
        default=None,
    )


def all_at_rear(switches: Iterable[Switch]) -> list[tuple[Switch, Position]]:
    """Free switches of tail, turn and stop lamps, all on: the first combined one as turn signal."""
    places = []
    looks = ["flashing"]
    for switch in switches:
        if not any(_kinds(id_) for position in switch.positions for id_ in position.lights):
            continue
        position = switch.positions[0]
        if len(switch.positions) > 1:
            look = looks.pop() if looks else "steady"
            position = next(p for p in switch.positions if look in p.lights.values())
        places.append((switch, position))
    return places


def _kinds(circuit_id: str) -> frozenset[str]:
    words = frozenset(circuit_id.split("_"))
    return frozenset() if "blackout" in words else words & _KINDS
