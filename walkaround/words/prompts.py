"""What is shown and said for a step: brisk, short for the experienced, or long for the new hire.

Written steps carry their own words. A lamp step's words follow from what its circuit lights at
its spot. Numbers are written as on paper here; `pronunciation.py` turns them into speech.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce

from walkaround.base.message import Message, Text, message
from walkaround.plan.steps import ANYTHING_ELSE, Item, Plan, Step
from walkaround.rules.checklist import Wording
from walkaround.walk.state import Walk
from walkaround.words.lamps import items_text
from walkaround.words.language import Words, capital

_REFLECTORS = frozenset({"reflector", "tape"})
_POWERS = ("box", "cab", "helper")
_NO_LAMPS = _REFLECTORS | {"anything_else"}
"""Kinds of item that no switch lights."""


@dataclass(frozen=True, slots=True)
class Prompt:
    """One step in words: what is shown of it, piece by piece, and `say`, which is spoken.

    Attributes:
        switch: what to switch for it; empty where nothing is to be switched.
        see: what to do, or what must be seen.
        explained: what is only for the new hire.
        pins: which contacts are fed; shown, not said.
        order: how `say` begins: the caution, `switch` and `see`, without what is explained.
    """

    title: str
    switch: str
    see: str
    explained: str
    pins: str
    caution: str
    say: str
    order: str

    @property
    def body(self) -> str:
        """Everything that is shown but its title, its caution and the contacts."""
        return _sentences(self.switch, self.see, self.explained)

    @property
    def order_share(self) -> float:
        """How much of what is spoken has to be heard before an answer can be meant, 0 to 1."""
        return len(self.order) / max(1, len(self.say))


def prompt(step: Step, power: str, wording: Wording, words: Words, *, anew: bool = False) -> Prompt:
    """Return the words for a step, for this source of power and this reader, in the reader's units.

    Args:
        step: what is asked.
        power: id of what switches the lamp circuits.
        wording: brisk, short or long.
        words: the reader's language and units.
        anew: the step is come back to, so that what it needs switched is said again.
    """
    if anew and step.stays:
        step = step.model_copy(update={"stays": False})
    switch, see, explained, new = _sentences_shown(step, power, wording, words)
    caution = words.text(step.caution)
    # A warning comes before the act it warns of, in speech as in a manual.
    told_first = _sentences(caution, switch, see)
    return Prompt(
        title=words.text(step.title),
        switch=switch,
        see=see,
        explained=_sentences(*explained),
        pins=capital(words.text(step.pins)),
        caution=caution,
        say=_sentences(told_first, *new),
        order=told_first,
    )


def place_words(step: Step, words: Words) -> str:
    """Tell where to stand for a step, as a sentence: "Left side."."""
    return words(f"place-{step.spot.replace('_', '-')}")


def power_name(id_: str, title: Text, words: Words) -> str:
    """Name a source of power; those that come with the app have short names."""
    return words(f"start-power-{id_}") if id_ in _POWERS else words.text(title)


def _sentences(*parts: str) -> str:
    """Join several sentences, without those that are empty."""
    return " ".join(part for part in parts if part)


def _sentences_shown(
    step: Step, power: str, wording: Wording, words: Words
) -> tuple[str, str, Sequence[str], Sequence[str]]:
    """Return what to switch, what to do or see, what is explained, and what of that is new."""
    if step.kind != "lamp" and not (step.kind == "look" and not step.short):
        text = words.text(step.short if wording == "short" else step.long)
        if wording == "brisk":
            text = words.text(step.brisk) or _sentence(words.text(step.title), words)
        return "", text, (), ()
    lamps = [item for item in step.items if item.kind not in _NO_LAMPS]
    place, switch = place_words(step, words), ""
    if step.kind == "lamp" and step.switching and not step.stays:
        # Where to stand goes before: whoever watches an ABS lamp must be there when it is fed.
        switch = _sentences(place, _watch_text(step, lamps, words), words.text(step.switching))
        sentences = list(_lamp_words(step, lamps, wording, words))
    else:
        watched = _watch_text(step, lamps, words)
        sentences = [place, watched, *_lamp_words(step, lamps, wording, words)]
    reflectors = [item for item in step.items if item.kind in _REFLECTORS]
    if reflectors:
        reflector_text = items_text(reflectors, words, one_side=_on_side(step))
        if wording == "brisk":
            sentences.append(words("prompt-reflectors-brisk", things=reflector_text))
        else:
            sentences.append(
                words("prompt-reflectors", things=reflector_text, count=len(reflectors))
            )
    if wording != "brisk" and any(item.id == ANYTHING_ELSE for item in step.items):
        sentences.append(words("prompt-anything-else"))
    see = _sentences(*sentences)
    if wording != "long":
        return switch, see, (), ()
    explained = _explained(step, power, lamps, words)
    taught = _teaching_texts([*_shining(step, lamps), *reflectors], words)
    new = [text for text, old in taught.items() if not old]
    return switch, see, [*explained, *taught], [*explained, *new]


def _sentence(title: str, words: Words) -> str:
    return title if title.endswith((".", "?", "!")) else words("prompt-title", title=title)


def _lamp_words(step: Step, lamps: Sequence[Item], wording: Wording, words: Words) -> Iterator[str]:
    """Say what must be seen of lamps."""
    if _has_abs_lamp(step, lamps):
        yield words("prompt-abs-brisk" if wording == "brisk" else "prompt-abs-short")
    elif step.kind == "lamp":
        clauses = reduce(
            lambda one, other: message("clauses", first=one, then=other),
            _seen_clauses(step, lamps, words),
        )
        yield words("prompt-seen", clauses=clauses)


def _watch_text(step: Step, lamps: Sequence[Item], words: Words) -> str:
    """Say which lamp to watch before it is fed; empty if none lights for a moment only."""
    if not _has_abs_lamp(step, lamps):
        return ""
    return words("prompt-abs-mirror" if step.spot == "cab" else "prompt-abs-stand")


def _has_abs_lamp(step: Step, lamps: Iterable[Item]) -> bool:
    """Tell whether an ABS lamp is looked at, which lights for a moment only."""
    return any(item.kind == "abs" and step.expect.get(item.id) != "dark" for item in lamps)


def _seen_clauses(step: Step, lamps: Sequence[Item], words: Words) -> Iterator[Text]:
    """Say what is lit, steady first, and that the rest is dark, a clause each."""
    one_side = _on_side(step)
    look_of = {item.id: step.expect.get(item.id, "dark") for item in lamps}
    steady = [item for item in lamps if look_of[item.id] == "steady"]
    flashing = [item for item in lamps if look_of[item.id] == "flashing"]
    over = [item for item in flashing if _is_over(item)]
    plain = [item for item in flashing if not _is_over(item)]
    if steady:
        yield message("prompt-lit", lamps=items_text(steady, words, one_side=one_side))
    if plain:
        yield message("prompt-flashing", lamps=items_text(plain, words, one_side=one_side))
    if over:
        signals = [_part_of(item, "flashing") for item in over]
        below = [_part_of(item, "steady") for item in over]
        yield message(
            "prompt-flashing-over",
            count=len(over),
            signals=items_text(signals, words, one_side=one_side),
            lamps=items_text(below, words, one_side=one_side or len(over) == 1),
        )
    if not flashing and not steady:
        yield message("prompt-all-dark")
    elif "dark" in step.expect.values():
        yield message("prompt-rest-dark")


def _is_over(item: Item) -> bool:
    return isinstance(item.said, Message) and item.said.id == "lamp-said-over"


def _part_of(item: Item, look: str) -> Item:
    """Name one of the two lamps that shine in a housing."""
    assert isinstance(item.said, Message)
    return item.model_copy(update={"said": item.said.args[look]})


def _on_side(step: Step) -> bool:
    return step.spot in ("left_side", "right_side")


def _shining(step: Step, lamps: Iterable[Item]) -> list[Item]:
    return [item for item in lamps if step.expect.get(item.id, "dark") != "dark"]


def _explained(step: Step, power: str, lamps: Sequence[Item], words: Words) -> Iterator[str]:
    if _has_abs_lamp(step, lamps):
        yield words("prompt-abs-long")
    elif power == "box" and "flashing" in step.expect.values():
        yield words("prompt-no-flasher")


def _teaching_texts(items: Iterable[Item], words: Words) -> dict[str, bool]:
    """Return what each kind of lamp is and why it matters; True if an earlier step said so."""
    texts: dict[str, bool] = {}
    for item in items:
        for text in (item.what, item.why):
            if text:
                texts.setdefault(words.text(text), item.taught)
    return texts


def summary_words(walk: Walk, words: Words) -> str:
    """Say that every step has its answer."""
    defects = words("open-defects", count=len(walk.open_defects))
    summary = words("summary-all-checked", defects=defects)
    if walk.unchecked:
        summary = words("summary-some-left", defects=defects, left=len(walk.unchecked))
    due = sum(not walk.is_open(step_id) for step_id in walk.due)
    return f"{words('summary-due-said', count=due)} {summary}" if due else summary


def words_said(plan: Plan, wording: Wording, words: Words) -> int:
    """Tell how many words the prompts of a walk have, as they are said."""
    prompts = (prompt(step, plan.power, wording, words) for step in plan.steps)
    return sum(len(words.spoken(each.say).split()) for each in prompts)
