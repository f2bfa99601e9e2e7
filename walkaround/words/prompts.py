"""What is shown and said for a step, short for the experienced or long for the new hire.

Written steps carry their own words. A lamp step's words follow from what its circuit lights at
its spot. Numbers are written as on paper here; `saying.spoken` turns them into speech.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from walkaround.base.shownunits import in_units
from walkaround.base.units import AS_WRITTEN, Units
from walkaround.plan.steps import OTHERS, Item, Step
from walkaround.walk.state import Walk

Wording = Literal["short", "long"]

SPOT_WORDS: Mapping[str, str] = {
    "front": "At the front",
    "right_side": "Along the right side",
    "rear": "At the rear",
    "left_side": "Along the left side",
    "cab": "In the cab",
    "source": "At the source",
}
_SIDES = ("left ", "centre ", "right ")
_NUMBERS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}


@dataclass(frozen=True, slots=True)
class Prompt:
    """One step in words: `body` and `caution` are shown, `say` is spoken."""

    title: str
    body: str
    caution: str
    say: str


def prompt(step: Step, power: str, wording: Wording, units: Units = AS_WRITTEN) -> Prompt:
    """The words for a step, for this source of power and this reader, in the reader's units."""
    body = in_units(_body(step, power, wording), units)
    caution = in_units(str(step.caution), units)
    # A warning comes before the act it warns of, in speech as in a manual.
    parts = [caution, f"Meter first: {step.meter_first}." if step.meter_first else "", body]
    return Prompt(
        title=in_units(str(step.title), units),
        body=body,
        caution=caution,
        say=" ".join(part for part in parts if part),
    )


def _body(step: Step, power: str, wording: Wording) -> str:
    if step.kind == "lamp":
        return _lamp_words(step, power, wording)
    if step.kind == "look" and not step.short:
        return _reflector_words(step, wording)
    return str(step.short if wording == "short" else step.long)


def _lamp_words(step: Step, power: str, wording: Wording) -> str:
    named = [item for item in step.items if item.id in step.expect and item.id != OTHERS]
    powered_up = [item for item in named if item.kind == "abs" and step.expect[item.id] != "dark"]
    if powered_up:
        return _abs_words(step, wording, powered_up[0])
    by_look = {
        look: [item for item in named if step.expect[item.id] == look]
        for look in ("steady", "flashing", "dark")
    }
    words = [f"{SPOT_WORDS[step.spot]}.", str(step.switching)]
    words += _alone_words(step, by_look) if is_alone(step) else _together_words(step, by_look)
    if wording == "long":
        if by_look["flashing"] and power == "box":
            words.append("A box without a flasher lights it steady: that is right too.")
        words += _teaching(item for look in ("steady", "flashing") for item in by_look[look])
    return " ".join(word for word in words if word)


def is_alone(step: Step) -> bool:
    """Whether one circuit is lit alone, so that everything else is simply dark."""
    return len(step.circuits_on) <= 1


def _alone_words(step: Step, by_look: Mapping[str, Sequence[Item]]) -> list[str]:
    look = "flashing" if by_look["flashing"] else "steady"
    lit = counted(by_look[look], one_side=_on_side(step))
    return [f"{_capital(lit)}, {look}. Nothing else lit."]


def _together_words(step: Step, by_look: Mapping[str, Sequence[Item]]) -> list[str]:
    lamps = sum(len(item.lamps) for items in by_look.values() for item in items)
    words = [
        f"{_capital(look)}: {counted(items, one_side=_on_side(step))}."
        for look, items in by_look.items()
        if items
    ]
    return [*words, f"{lamps} lamps in all."] if lamps > 1 else words


def _abs_words(step: Step, wording: Wording, lamp: Item) -> str:
    words = [
        f"{SPOT_WORDS[step.spot]}. Stand where you see the ABS lamp.",
        f"{step.switching} It lights for a moment, then goes out.",
    ]
    if wording == "long":
        words += [
            "Never lit, or lit to stay, is a defect. Missed it? Switch off and on again.",
            "Some stay lit until the trailer has moved, to clear a stored fault: note that.",
        ]
        words += _teaching([lamp])
    return " ".join(words)


def _reflector_words(step: Step, wording: Wording) -> str:
    things = counted(step.items, one_side=_on_side(step))
    words = f"{SPOT_WORDS[step.spot]}. {_capital(things)}: there, whole and clean?"
    return words if wording == "short" else " ".join([words, *_teaching(step.items)])


def _on_side(step: Step) -> bool:
    return step.spot in ("left_side", "right_side")


def _teaching(items: Iterable[Item]) -> list[str]:
    """What each kind of lamp is and why it matters, once for each kind."""
    sentences = [str(text) for item in items for text in (item.what, item.why) if text]
    return list(dict.fromkeys(sentences))


def counted(items: Iterable[Item], *, one_side: bool = False) -> str:
    """Items in few words: "two tail lamps and licence-plate lamp"; a lone one keeps its side.

    On one side of the vehicle nothing needs its side named, and lamps that differ by one word
    share the others: "front and rear side marker lamps".
    """
    groups: dict[str, list[str]] = {}
    for item in items:
        name = str(item.name)
        groups.setdefault(_without_sides(name), []).append(name)
    words = [
        (base if one_side else names[0]) if len(names) == 1 else _several(base, len(names))
        for base, names in groups.items()
    ]
    return listed(_sharing(words) if one_side else words)


def listed(words: Sequence[str]) -> str:
    """Words as a list in a sentence."""
    return "".join(words) if len(words) < 2 else f"{', '.join(words[:-1])} and {words[-1]}"


def _sharing(names: Sequence[str]) -> list[str]:
    tails: dict[str, list[str]] = {}
    for name in names:
        first, _, rest = name.partition(" ")
        tails.setdefault(rest, []).append(first)
    return [
        f"{listed(firsts)} {rest}{'s' if len(firsts) > 1 else ''}".strip()
        for rest, firsts in tails.items()
    ]


def _several(name: str, count: int) -> str:
    each = re.sub(r"(?<!,)(?=, | and |$)", "s", name)
    return f"{_NUMBERS.get(count, str(count))} {each}"


def _without_sides(name: str) -> str:
    for side in _SIDES:
        name = name.replace(side, "")
    return name


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def summary_words(walk: Walk) -> str:
    """Said when every step has its answer."""
    open_ = len(walk.open_defects)
    left = len(walk.unchecked)
    defects = "No open defect" if not open_ else f"{open_} open defect{'s' if open_ > 1 else ''}"
    unchecked = "" if not left else f" {left} not checked."
    return f"Every step has an answer. {defects}.{unchecked} Look through it and close the record."
