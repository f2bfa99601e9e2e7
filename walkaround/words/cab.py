"""What a second phone in the cab shows and says: what to switch now, while another one answers.

Whoever sits in the cab does not see who is at the brakes. So everything that moves air or
brakes is "hands off" first, in the words that the step carries for those outside.
"""

from __future__ import annotations

from dataclasses import dataclass

from walkaround.base.message import Text
from walkaround.base.shownunits import in_units
from walkaround.base.units import AS_WRITTEN, Units
from walkaround.plan.steps import Step
from walkaround.walk.state import Walk

HANDS_OFF = "Hands off"
CALLED = "Hands off until called"
SWITCH = "Switch"
NOTHING = "Nothing to switch"
TOUCH_NOTHING = "Touch no switch, no pedal and no valve."


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


def cab_words(walk: Walk, units: Units = AS_WRITTEN) -> CabWords:
    """What the cab is told now, in the reader's units."""
    step = walk.here
    if walk.phase == "finished":
        return CabWords("The walk is closed")
    if walk.phase == "paused":
        return CabWords("The walk is left for now", ("Nothing to switch until it goes on.",))
    if step is None:
        return CabWords(NOTHING, ("Every step has an answer.",))

    def shown(text: Text) -> str:
        return in_units(str(text), units)

    later = _later(walk, step)
    title, caution, short = shown(step.title), shown(step.caution), shown(step.short)
    # Going back to a step brings nobody out: the place it was gone back from counts too.
    place = walk.place or step
    soft = any(each.soft or each.quiet for each in (step, place))
    if step.part == "lamps" and not (soft or place.air):
        return _lamps(walk, step, title, caution, later)
    if step.air or soft or place.air:
        called = step.spot == "cab" and step.kind != "hold" and not soft
        head = CALLED if called else HANDS_OFF
        return CabWords(
            head,
            _some(caution, short) if called else _some(TOUCH_NOTHING, caution),
            "" if called else title,
            later,
            _sentences(head, caution),
            hands_off=True,
            soft=soft,
        )
    if step.spot == "cab":
        return CabWords("In the cab", _some(caution, short), "", later, _sentences(caution, short))
    return CabWords(NOTHING, _some(caution), short or title, later)


def _lamps(walk: Walk, step: Step, title: str, caution: str, later: str) -> CabWords:
    """The setting that the lamps are looked at in; it stands until the next one."""
    metered = f"Meter first: {step.meter_first}." if step.meter_first else ""
    first = _some(caution, metered)
    setting = _setting(walk, step)
    if not setting:
        return CabWords(NOTHING, first, title, later, _sentences(*first), hands_off=bool(first))
    lines = tuple(_capital(part.strip(" .")) for part in setting.split(";"))
    head = CALLED if first else SWITCH
    return CabWords(
        head,
        (*first, *lines),
        title,
        later,
        _sentences(CALLED if first else "", *first, setting),
        hands_off=bool(first),
    )


def _setting(walk: Walk, step: Step) -> str:
    """How the circuits are switched on: told once, at the first step that is looked at so."""
    before = walk.steps[: walk.steps.index(step) + 1]
    told = (each.switching for each in reversed(before) if each.part == step.part)
    return str(next((text for text in told if text), ""))


def _later(walk: Walk, step: Step) -> str:
    """The title of the next step that has no answer."""
    after = walk.steps[walk.steps.index(step) + 1 :]
    return str(next((each.title for each in after if each.id not in walk.answers), ""))


def _some(*texts: str) -> tuple[str, ...]:
    return tuple(text for text in texts if text)


def _sentences(*texts: str) -> str:
    return " ".join(text if text[-1] in ".?!" else f"{text}." for text in _some(*texts))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
