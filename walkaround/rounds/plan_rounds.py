"""The fewest rounds that show every circuit, told from every other as far as the source can.

Each look that a circuit must have is shown, and for any two circuits that the source can tell
apart some setting has the first on and the second with another look, and the other way round: so
no dead circuit and no swap or bridge of two such circuits looks right in every round.

For switches that depend on each other this is a set cover, searched (`switch_settings`,
`set_cover`); for switches that are free of each other it is known outright (`sperner`). A box with
a switch for each of a dozen circuits has thousands of settings, and so needs the second.

Blackout lamps are never lit beside service lamps: the switch of a vehicle excludes the two, and a
hooded marker cannot be judged beside a stop lamp. So each of the two is planned for itself. A gear
is in for as few settings as can be, one after the other.

The load check after the last round has tail, turn and stop lamps on together, to show what single
circuits hide: a poor ground carries one circuit's current well enough and fails under that of all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import combinations
from operator import or_
from typing import NamedTuple

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, Text, message
from walkaround.lamps.wiring import Circuit
from walkaround.rounds.messages import SwitchSetting, rounds_reason, setting_of
from walkaround.rounds.power_source import (
    Lit,
    Position,
    PowerSource,
    Switch,
    Where,
    is_blackout,
    looks_wanted,
    switches_for,
    takes_part,
)
from walkaround.rounds.set_cover import fewest
from walkaround.rounds.sperner import are_free, sperner_settings
from walkaround.rounds.switch_settings import (
    SettingChoice,
    bits_shown,
    bits_to_show,
    choices,
    looks_had,
    setting_choice,
    settings_count,
    told_apart,
)

# What the exact search does in seconds at worst; a cab has seven switches and some sixty settings.
MOST_SWITCHES = 8
MOST_TRIED = 10_000
MOST_SETTINGS = 1000

_KINDS = frozenset({"tail", "turn", "stop"})


class Pair(NamedTuple):
    """Two circuits, by id, that no setting tells apart, and why."""

    first: str
    second: str
    reason: Text


@dataclass(frozen=True, slots=True)
class Rounds:
    """The settings to switch, in their order, and what they cannot show.

    Attributes:
        settings: in the order they are made.
        load_check: tail, turn and stop together, for the rear after the last round; it may be the
            last setting itself. None when the source or the vehicle has no such setting.
        pairs_not_told_apart: a swap or a bridge of these two stays hidden.
        not_switchable: ids of the circuits that the source cannot light.
        looks_not_had: circuit ids with a look that they must have and the source cannot give.
        why: one sentence that explains the number of rounds.
    """

    where: Where
    settings: tuple[SwitchSetting, ...]
    load_check: SwitchSetting | None
    pairs_not_told_apart: tuple[Pair, ...]
    not_switchable: tuple[str, ...]
    looks_not_had: tuple[tuple[str, Lit], ...]
    why: Text

    @property
    def rounds(self) -> int:
        """Times round the vehicle: one for each setting from the cab, else one for all."""
        return len(self.settings) if self.where == "cab" else min(1, len(self.settings))

    @property
    def trips(self) -> int:
        """Times that something is set in the cab by the mechanic, load check included."""
        if self.where != "cab":
            return 0
        extra = self.load_check is not None and self.load_check not in self.settings
        return len(self.settings) + extra


def plan_rounds(source: PowerSource, circuits: Sequence[Circuit]) -> Rounds:
    """Find the fewest settings of this source for these circuits; continuous feeds take no part.

    Raises:
        InputError: the source has more switches, depending on each other, than can be searched.
    """
    circuits = [circuit for circuit in circuits if takes_part(circuit)]
    chosen, load = _plan_group(source, circuits, blackout=False)
    hooded, _ = _plan_group(source, circuits, blackout=True)
    if load:
        load = next((option for option in chosen if option.lights == load.lights), load)
    # Settings in gear stand together. Where the load check is one of the settings it comes last
    # and costs no trip.
    chosen = sorted(chosen, key=lambda option: option.in_gear)
    chosen = sorted([*hooded, *chosen], key=lambda option: option is load)
    return _rounds(source, circuits, chosen, load)


def _plan_group(
    source: PowerSource, circuits: Sequence[Circuit], *, blackout: bool
) -> tuple[list[SettingChoice], SettingChoice | None]:
    """Find the fewest settings of service or blackout lamps, and the service's load check.

    A position that lights both is never set.
    """
    ids = [circuit.id for circuit in circuits]
    planned = [circuit for circuit in circuits if is_blackout(circuit) == blackout]
    other_circuits = [circuit for circuit in circuits if is_blackout(circuit) != blackout]
    barred = {
        (switch.id, position.id)
        for switch in switches_for(source, other_circuits)
        for position in switch.positions
        if position.lights
    }
    switches = []
    for switch in switches_for(source, planned):
        positions = tuple(p for p in switch.positions if (switch.id, p.id) not in barred)
        if positions:
            switches.append(switch.model_copy(update={"positions": positions}))
    combined = {circuit.id for circuit in planned if len(looks_wanted(circuit)) > 1}
    if are_free(switches, combined):
        chosen = [setting_choice(places, ids) for places in sperner_settings(switches)]
        return chosen, heaviest_setting([setting_choice(all_at_rear(switches), ids)], ids)
    options = _options(source, switches, ids)
    return _fewest(options, circuits), heaviest_setting(options, ids)


def _rounds(
    source: PowerSource,
    circuits: Sequence[Circuit],
    chosen: list[SettingChoice],
    load: SettingChoice | None,
) -> Rounds:
    ids = [circuit.id for circuit in circuits]
    settings = tuple(setting_of(option, source, ids) for option in chosen)
    shown_bits = reduce(or_, (bits_shown(option, len(ids)) for option in chosen), 0)
    looks = {id_: looks_had(shown_bits, place, len(ids)) for place, id_ in enumerate(ids)}
    return Rounds(
        where=source.where,
        settings=settings,
        load_check=setting_of(load, source, ids) if load else None,
        pairs_not_told_apart=tuple(_not_told_apart(source, circuits, looks, shown_bits)),
        not_switchable=tuple(id_ for id_ in ids if not looks[id_]),
        looks_not_had=tuple(
            (circuit.id, look)
            for circuit in circuits
            for look in looks_wanted(circuit)
            if looks[circuit.id] and look not in looks[circuit.id]
        ),
        why=rounds_reason(source, chosen, settings),
    )


def _fewest(options: Sequence[SettingChoice], circuits: Sequence[Circuit]) -> list[SettingChoice]:
    shows = [bits_shown(option, len(circuits)) for option in options]
    needed = bits_to_show(reduce(or_, shows, 0), [looks_wanted(circuit) for circuit in circuits])
    in_gear = {index for index, option in enumerate(options) if option.in_gear}
    return [options[index] for index in fewest([show & needed for show in shows], in_gear)]


def _not_told_apart(
    source: PowerSource,
    circuits: Sequence[Circuit],
    looks: Mapping[str, Sequence[Lit]],
    shown_bits: int,
) -> Iterator[Pair]:
    for (at, one), (place, other) in combinations(enumerate(circuits), 2):
        lit = looks[one.id] and looks[other.id]
        if lit and not told_apart(shown_bits, at, place, len(circuits)):
            reason = message(
                "rounds-never-apart", source=source.title, one=one.name, other=other.name
            )
            yield Pair(one.id, other.id, reason)


def single_settings(source: PowerSource, circuits: Sequence[Circuit]) -> dict[str, SwitchSetting]:
    """Find how each circuit is lit while all others are dark, by its id, where that can be had.

    It looks as it looks when nothing is wrong with it: a turn signal flashes. What is lit by
    something held, such as a pedal, and never without others, is lit with the fewest of them:
    how far a pedal goes down is always said.
    """
    ids = [circuit.id for circuit in circuits]
    switches = switches_for(source, circuits)
    if len(switches) > MOST_SWITCHES or settings_count(switches) > MOST_TRIED:
        return {}
    options = sorted(choices(switches, ids), key=lambda option: option.lit.bit_count())
    settings = [setting_of(option, source, ids) for option in options]
    setting_of_circuit: dict[str, SwitchSetting] = {}
    for circuit in circuits:
        look: Lit = "flashing" if circuit.flashes else "steady"
        lighting = [setting for setting in settings if setting.looks[circuit.id] == look]
        by_itself = [s for s in lighting if [*s.looks.values()].count("dark") == len(ids) - 1]
        if by_itself or (lighting and all(setting.is_propped for setting in lighting)):
            setting_of_circuit[circuit.id] = (by_itself or lighting)[0]
    return setting_of_circuit


def _options(
    source: PowerSource, switches: Sequence[Switch], ids: Sequence[str]
) -> list[SettingChoice]:
    """List the settings that can be had; raises InputError if the search would take too long."""
    if len(switches) > MOST_SWITCHES:
        what = message("problem-many-switches", count=len(switches))
        raise _too_large(source, what, MOST_SWITCHES)
    if (count := settings_count(switches)) > MOST_TRIED:
        raise _too_large(source, message("problem-many-settings", count=count), MOST_TRIED)
    options = choices(switches, ids)
    if len(options) > MOST_SETTINGS:
        what = message("problem-many-settings-together", count=len(options))
        raise _too_large(source, what, MOST_SETTINGS)
    return options


def _too_large(source: PowerSource, what: Message, most: int) -> InputError:
    where = message("problem-power-source", source=source.id)
    mend = message("problem-leave-out-what-is-not-needed", most=most)
    return InputError([Problem(where, "switch", what, mend)])


def heaviest_setting(
    options: Iterable[SettingChoice], circuit_ids: Sequence[str]
) -> SettingChoice | None:
    """Find the setting with tail, turn and stop on that has most of these circuits on."""
    tail, turn, stop = (
        sum(1 << place for place, id_ in enumerate(circuit_ids) if kind in _kinds(id_))
        for kind in ("tail", "turn", "stop")
    )

    def is_load(option: SettingChoice) -> bool:
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
    """Set all free switches of tail, turn and stop lamps, the first combined one to turn signal."""
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
