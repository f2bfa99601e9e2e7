"""The settings in which lamps are looked at, and which of them show something new at a spot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from walkaround.base.message import Text, message
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.plan.steps import Look
from walkaround.rounds.messages import SwitchSetting
from walkaround.rounds.plan_rounds import Rounds, single_settings
from walkaround.rounds.power_source import PowerSource, is_backup, takes_part
from walkaround.rounds.set_cover import fewest
from walkaround.rules.checklist import Spot

LOAD = "load"
"""Tail, turn and stop at once shows bad grounds; those are looked for at the rear."""


class LampSetting(NamedTuple):
    """A setting as steps are made from it.

    Attributes:
        id, name: of the setting, or of the circuit that is lit alone.
        switching: how it is made.
        looks: how each circuit then looks, by circuit id; those not named are dark.
        in_gear: a gear is in, which is taken out again before anything else is switched.
        is_propped: something is held or propped, which is let go when the lamps are done.
    """

    id: str
    name: Text
    switching: Text
    looks: Mapping[str, Look]
    alone: bool = False
    in_gear: bool = False
    is_propped: bool = False


def settings_for(
    rounds: Rounds | None, circuits: Sequence[Circuit], source: PowerSource
) -> list[LampSetting]:
    """List what is switched on for these circuits, in order; without rounds each of them alone.

    With rounds the load check comes after them, unless a setting already was that, and then alone
    what no setting lights: continuous feeds, and what the source cannot switch.
    """
    called = source.where == "called"

    def lamp_setting(
        id_: str, name: Text, setting: SwitchSetting, *, by_itself: bool = False
    ) -> LampSetting:
        say = message("lamp-call-out", setting=setting.say) if called else setting.say
        looks = setting.looks
        return LampSetting(id_, name, say, looks, by_itself, setting.in_gear, setting.is_propped)

    lamp_settings: list[LampSetting] = []
    remaining = circuits
    if rounds:
        lamp_settings = [
            lamp_setting(f"look_{number}", setting.name, setting)
            for number, setting in enumerate(rounds.settings, start=1)
        ]
        load = rounds.load_check
        if load and load not in rounds.settings:
            lamp_settings.append(lamp_setting(LOAD, message("lamp-all-at-once"), load))
        remaining = [c for c in circuits if not takes_part(c) or c.id in rounds.not_switchable]
    by_itself = {} if source.where == "spot" else single_settings(source, circuits)
    for circuit in sorted(remaining, key=is_backup):
        if setting := by_itself.get(circuit.id):
            lamp_settings.append(lamp_setting(circuit.id, circuit.name, setting, by_itself=True))
            continue
        say = message(f"lamp-circuit-on-{source.where}", circuit=circuit.name)
        look: Look = "flashing" if circuit.flashes else "steady"
        in_gear = source.where != "spot" and is_backup(circuit)
        lamp_settings.append(
            LampSetting(circuit.id, circuit.name, say, {circuit.id: look}, True, in_gear)
        )
    return lamp_settings


def worth_a_look(
    settings: Sequence[LampSetting], spot: Spot, lamps: Sequence[Lamp], wiring: Wiring
) -> set[str]:
    """Choose the settings that are looked at from a spot, by their ids.

    What a look there shows is which of its circuits were on, and which pairs of circuits, one of
    them its own, looked otherwise; of the settings that light something there (at the rear of all
    of them) the fewest are looked at that show all of this. The load check shows grounds besides.
    """
    here = {wiring.circuit_of[lamp.id] for lamp in lamps}
    load = {setting.id for setting in settings if setting.id == LOAD and spot == "rear"}
    looked_at = [
        setting
        for setting in settings
        if setting.id != LOAD
        and here
        and (here & setting.looks.keys() - _dark(setting) or (spot == "rear" and not setting.alone))
    ]
    facts: dict[tuple[str, str, str], int] = {}
    shown_bits = []
    for setting in looked_at:
        bits = 0
        for one in setting.looks.keys() - _dark(setting):
            pairs = [(one, "", str(setting.looks[one]))] if one in here else []
            pairs += [
                (one, other.id, "")
                for other in wiring.circuits
                if here & {one, other.id}
                and setting.looks.get(other.id, "dark") != setting.looks[one]
            ]
            for pair in pairs:
                bits |= 1 << facts.setdefault(pair, len(facts))
        shown_bits.append(bits)
    return load | {looked_at[index].id for index in fewest(shown_bits)}


def _dark(setting: LampSetting) -> set[str]:
    return {id_ for id_, look in setting.looks.items() if look == "dark"}
