"""What a second phone in the cab shows and says: what to switch now, while another one answers.

Whoever sits in the cab does not see who is at the brakes. So everything that moves air or
brakes is "hands off" first, in the words that the step carries for those outside.
"""

from __future__ import annotations

from dataclasses import dataclass

from walkaround.base.message import Text
from walkaround.plan.steps import Step
from walkaround.walk.state import Walk
from walkaround.words.language import Words, capital


@dataclass(frozen=True, slots=True)
class CabWords:
    """One moment of a walk as seen from the cab.

    Attributes:
        head: what it comes to, in a few words.
        lines: what to do, or why not, each to stand in a line of its own.
        outside: what the one outside is doing; empty where that is said already.
        later: what comes next; empty at the end.
        say: what is spoken when it is new; empty for silence.
        hands_off: nothing may be touched now, or nothing before it is called.
        soft: it is said softly, since somebody is in at the brakes.
    """

    head: str
    lines: tuple[str, ...] = ()
    outside: str = ""
    later: str = ""
    say: str = ""
    hands_off: bool = False
    soft: bool = False


def cab_words(walk: Walk, words: Words) -> CabWords:
    """Tell what the cab is told now, in the reader's language and units."""
    step = walk.here
    if walk.phase == "finished":
        return CabWords(words("cab-closed"))
    if walk.phase == "paused":
        return CabWords(words("cab-left"), (words("cab-left-until"),))
    if step is None:
        return CabWords(words("cab-nothing"), (words("cab-answered"),))

    later = _next_title(walk, step, words)
    title, caution, short = words.text(step.title), words.text(step.caution), words.text(step.short)
    # Going back to a step brings nobody out: the place it was gone back from counts too.
    place = walk.place or step
    soft = any(each.soft or each.quiet for each in (step, place))
    if step.part == "lamps" and not (soft or place.air):
        return _lamps(walk, step, title, caution, later, words)
    if step.air or soft or place.air:
        at_air = step.part != "lamps" and step.kind != "hold"
        called = step.spot == "cab" and at_air and not soft
        head = words("cab-called" if called else "cab-hands-off")
        return CabWords(
            head,
            _some(caution, short) if called else _some(words("cab-touch-nothing"), caution),
            "" if called else title,
            later,
            _sentences(head, caution),
            hands_off=True,
            soft=soft,
        )
    if step.spot == "cab":
        lines = _some(caution, short)
        return CabWords(words("cab-in-cab"), lines, "", later, _sentences(caution, short))
    return CabWords(words("cab-nothing"), _some(caution), short or title, later)


def _lamps(walk: Walk, step: Step, title: str, caution: str, later: str, words: Words) -> CabWords:
    """Write the setting that the lamps are looked at in; it stands until the next one."""
    metered = words("prompt-meter-first", why=step.meter_first) if step.meter_first else ""
    first = _some(caution, metered)
    setting = words.text(_setting(walk, step))
    if not setting:
        setting_text = _sentences(*first)
        return CabWords(
            words("cab-nothing"), first, title, later, setting_text, hands_off=bool(first)
        )
    # A setting is one sentence of clauses, each of which is one thing to do.
    lines = tuple(capital(part.strip(" .")) for part in setting.split(";"))
    lines += _some(capital(words.text(step.pins)))
    called = words("cab-called")
    return CabWords(
        called if first else words("cab-switch"),
        (*first, *lines),
        title,
        later,
        _sentences(called if first else "", *first, setting),
        hands_off=bool(first),
    )


def _setting(walk: Walk, step: Step) -> Text:
    """Write how the circuits are switched on: told once, at the first step looked at so."""
    before = walk.steps[: walk.steps.index(step) + 1]
    settings = (each.switching for each in reversed(before) if each.part == step.part)
    return next((text for text in settings if text), "")


def _next_title(walk: Walk, step: Step, words: Words) -> str:
    """Return the title of the next step that has no answer."""
    after = walk.steps[walk.steps.index(step) + 1 :]
    return next((words.text(each.title) for each in after if each.id not in walk.answers), "")


def _some(*texts: str) -> tuple[str, ...]:
    return tuple(text for text in texts if text)


def _sentences(*texts: str) -> str:
    return " ".join(text if text[-1] in ".?!" else f"{text}." for text in _some(*texts))
