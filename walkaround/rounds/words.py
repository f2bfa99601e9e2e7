"""Settings and rounds in words: how a setting is made, and why there are so many rounds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from walkaround.rounds.power_source import Look, PowerSource
from walkaround.rounds.switch_settings import Choice

_NUMBERS = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting of the switches.

    Attributes:
        name: what is set, in a few words: "parking lamps and left turn".
        say: how to set it, one sentence.
        positions: position by switch; switches that are not named are off.
        looks: how each circuit that is switched looks, by circuit id.
    """

    name: str
    say: str
    positions: Mapping[str, str]
    looks: Mapping[str, Look]


def setting_of(choice: Choice, source: PowerSource, circuit_ids: Sequence[str]) -> Setting:
    """The setting that a choice of positions makes."""
    return Setting(
        name=_listed([p.name for _, p in choice.places if p.lights]),
        say=_say(choice, source),
        positions={switch.id: position.id for switch, position in choice.places},
        looks={id_: _look(choice, place) for place, id_ in enumerate(circuit_ids)},
    )


def why(source: PowerSource, chosen: Sequence[Choice], settings: Sequence[Setting]) -> str:
    """One sentence that explains the number of rounds.

    Args:
        chosen, settings: the same settings, in the order they are made.
    """
    if not settings:
        return f"No rounds: {source.title} lights no circuit of this vehicle."
    count = _number(len(settings))
    if source.where != "cab":
        how = "switched" if source.where == "spot" else "called out"
        noun = "setting" if len(settings) == 1 else "settings"
        return f"One round, {count} {noun} {how} at each spot."
    order = ", then ".join(setting.name for setting in settings)
    kept = {f"the {switch.name}": None for c in chosen for switch, p in c.places if p.keep}
    held = f"; {_listed([*kept])} must be held or propped" if kept else ""
    return f"{count.capitalize()} {'round' if len(settings) == 1 else 'rounds'}: {order}{held}."


def _say(choice: Choice, source: PowerSource) -> str:
    orders = [
        f"{p.say} ({p.keep})" if p.keep and source.where == "cab" else p.say
        for _, p in choice.places
    ]
    said = "; ".join([*orders, "all else off"])
    return f"{said[:1].upper()}{said[1:]}."


def _look(choice: Choice, place: int) -> Look:
    if choice.flashing >> place & 1:
        return "flashing"
    return "steady" if choice.steady >> place & 1 else "dark"


def _number(count: int) -> str:
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def _listed(names: Sequence[str]) -> str:
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
