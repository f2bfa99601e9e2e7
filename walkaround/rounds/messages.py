"""Settings and rounds as messages: how a setting is made, and why there are so many rounds."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce

from walkaround.base.message import Text, message
from walkaround.lamps.names import join_clauses
from walkaround.rounds.power_source import Look, PowerSource
from walkaround.rounds.switch_settings import SettingChoice


@dataclass(frozen=True, slots=True)
class SwitchSetting:
    """One setting of the switches.

    Attributes:
        name: what is set, in a few words: "parking lamps and left turn".
        say: how to set it, one sentence.
        positions: position by switch; switches that are not named are off.
        looks: how each circuit that is switched looks, by circuit id.
        in_gear: a gear is in, so that a running engine would move the vehicle.
        is_propped: something is held or propped for it, such as a pedal.
    """

    name: Text
    say: Text
    positions: Mapping[str, str]
    looks: Mapping[str, Look]
    in_gear: bool = False
    is_propped: bool = False


def setting_of(
    choice: SettingChoice, source: PowerSource, circuit_ids: Sequence[str]
) -> SwitchSetting:
    """Make the setting that a choice of positions is."""
    orders = [
        message("rounds-order-kept", order=p.say, keep=p.keep)
        if p.keep and source.where == "cab"
        else p.say
        for _, p in choice.places
    ]
    return SwitchSetting(
        name=_listed([p.name for _, p in choice.places if p.lights]),
        say=message(
            "rounds-orders", orders=join_clauses([*orders, message("rounds-all-else-off")])
        ),
        positions={switch.id: position.id for switch, position in choice.places},
        looks={id_: _look(choice, place) for place, id_ in enumerate(circuit_ids)},
        in_gear=choice.in_gear,
        is_propped=any(position.keep for _, position in choice.places),
    )


def rounds_reason(
    source: PowerSource, chosen: Iterable[SettingChoice], settings: Sequence[SwitchSetting]
) -> Text:
    """Explain the number of rounds.

    Args:
        chosen, settings: the same settings, in the order they are made.
    """
    if not settings:
        return message("rounds-none", source=source.title)
    count = len(settings)
    if source.where != "cab":
        return message(f"rounds-settings-{source.where}", count=count)
    order = reduce(
        lambda first, then: message("rounds-then", first=first, then=then),
        [setting.name for setting in settings],
    )
    left_on = {switch.id: switch.name for c in chosen for switch, p in c.places if p.keep}
    if not left_on:
        return message("rounds-from-cab", count=count, order=order)
    switches = tuple(message("rounds-the-switch", switch=name) for name in left_on.values())
    return message("rounds-from-cab-held", count=count, order=order, switches=switches)


def _look(choice: SettingChoice, place: int) -> Look:
    if choice.flashing >> place & 1:
        return "flashing"
    return "steady" if choice.steady >> place & 1 else "dark"


def _listed(names: Sequence[Text]) -> Text:
    return names[0] if len(names) == 1 else message("rounds-setting", positions=tuple(names))
