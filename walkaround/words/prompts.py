"""What is shown and said for a step, short for the experienced or long for the new hire.

Written steps carry their own words. A lamp step's words follow from what its circuit lights at
its spot. Numbers are written as on paper here; `spoken.py` turns them into speech.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from walkaround.plan.steps import OTHERS, Item, Look, Step
from walkaround.walk.state import Walk
from walkaround.words.lamps import counted
from walkaround.words.language import Words

Wording = Literal["short", "long"]

_LOOKS: tuple[Look, ...] = ("steady", "flashing", "dark")


@dataclass(frozen=True, slots=True)
class Prompt:
    """One step in words: `body` and `caution` are shown, `say` is spoken."""

    title: str
    body: str
    caution: str
    say: str


def prompt(step: Step, power: str, wording: Wording, words: Words) -> Prompt:
    """The words for a step, for this source of power and this reader, in the reader's units."""
    body, caution = words.text(_body(step, power, wording, words)), words.text(step.caution)
    metered = words("prompt-meter-first", why=step.meter_first) if step.meter_first else ""
    # A warning comes before the act it warns of, in speech as in a manual.
    say = " ".join(part for part in (caution, metered, body) if part)
    return Prompt(title=words.text(step.title), body=body, caution=caution, say=say)


def place_words(step: Step, words: Words) -> str:
    """Where to stand for a step, as a sentence: "Along the left side."."""
    return words(f"place-{step.spot.replace('_', '-')}")


def _body(step: Step, power: str, wording: Wording, words: Words) -> str:
    if step.kind == "lamp":
        return _lamp_words(step, power, wording, words)
    if step.kind == "look" and not step.short:
        return _reflector_words(step, wording, words)
    return words.text(step.short if wording == "short" else step.long)


def _lamp_words(step: Step, power: str, wording: Wording, words: Words) -> str:
    named = [item for item in step.items if item.id in step.expect and item.id != OTHERS]
    powered_up = [item for item in named if item.kind == "abs" and step.expect[item.id] != "dark"]
    if powered_up:
        return _abs_words(step, wording, powered_up[0], words)
    by_look = {look: [item for item in named if step.expect[item.id] == look] for look in _LOOKS}
    said = [place_words(step, words), words.text(step.switching)]
    if is_alone(step):
        look: Look = "flashing" if by_look["flashing"] else "steady"
        lit = counted(by_look[look], words, one_side=_on_side(step))
        said.append(words("prompt-alone", lamps=lit, look=look))
    else:
        said += _together_words(step, by_look, words)
    if wording == "long":
        if by_look["flashing"] and power == "box":
            said.append(words("prompt-no-flasher"))
        said += _teaching((*by_look["steady"], *by_look["flashing"]), words)
    return " ".join(sentence for sentence in said if sentence)


def is_alone(step: Step) -> bool:
    """Whether one circuit is lit alone, so that everything else is simply dark."""
    return len(step.circuits_on) <= 1


def _together_words(step: Step, by_look: Mapping[Look, Sequence[Item]], words: Words) -> list[str]:
    lamps = sum(len(item.lamps) for items in by_look.values() for item in items)
    said = [
        words("prompt-lit", look=look, lamps=counted(items, words, one_side=_on_side(step)))
        for look, items in by_look.items()
        if items
    ]
    return [*said, words("prompt-lamps-in-all", count=lamps)] if lamps > 1 else said


def _abs_words(step: Step, wording: Wording, lamp: Item, words: Words) -> str:
    said = [
        place_words(step, words),
        words("prompt-abs-stand"),
        words.text(step.switching),
        words("prompt-abs-short"),
    ]
    if wording == "long":
        said += [words("prompt-abs-long"), *_teaching([lamp], words)]
    return " ".join(said)


def _reflector_words(step: Step, wording: Wording, words: Words) -> str:
    things = counted(step.items, words, one_side=_on_side(step))
    said = [place_words(step, words), words("prompt-reflectors", things=things)]
    return " ".join(said if wording == "short" else [*said, *_teaching(step.items, words)])


def _on_side(step: Step) -> bool:
    return step.spot in ("left_side", "right_side")


def _teaching(items: Iterable[Item], words: Words) -> list[str]:
    """What each kind of lamp is and why it matters, once for each kind."""
    sentences = [words.text(text) for item in items for text in (item.what, item.why) if text]
    return list(dict.fromkeys(sentences))


def summary_words(walk: Walk, words: Words) -> str:
    """Said when every step has its answer."""
    defects = words("open-defects", count=len(walk.open_defects))
    if not walk.unchecked:
        return words("summary-all-checked", defects=defects)
    return words("summary-some-left", defects=defects, left=len(walk.unchecked))
