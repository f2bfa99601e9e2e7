"""Which answers and faults a step offers; `words/answers.py` says what each is called.

A lamp that the rules require can be *missing*, which is a defect; *not fitted* is offered only
for what nobody requires.
"""

from __future__ import annotations

from collections.abc import Mapping

from walkaround.plan.steps import UNPLACED, Item, Look, Step
from walkaround.walk.events import NO_FAULT, Answer, Seen

_HURT: tuple[Seen, ...] = ("cracked", "dirty", "loose")
_ITSELF: tuple[Seen, ...] = ("wrong_colour", *_HURT)
_BY_LOOK: Mapping[Look, tuple[Seen, ...]] = {
    "steady": ("dark", "dim", "flickers", "flashing", "some_out", "too_bright", *_ITSELF),
    "flashing": (
        *("dark", "dim", "steady", "flashes_fast", "flashes_slow", "some_out", "too_bright"),
        *_ITSELF,
    ),
    "dark": ("wrong_lamp", "glows", "flickers", *_HURT),
}
_FAULTS: Mapping[str, tuple[Seen, ...]] = {
    "abs": ("dark", "stays_on", *_HURT),
    "reflector": ("broken", "dirty", "wrong_colour", "loose"),
    "tape": ("broken", "dirty", "wrong_colour", "loose"),
    "wheel_end": ("no_movement", "leak", "worn", "differs", "broken", "loose"),
    "others": ("wrong_lamp", "glows", "flickers"),
    "anything_else": ("broken", "loose", "missing", "other"),
    "contact": ("dead", "other"),
}


# Builders put these on one wire of a trailer's plug or on another (see the warning of SAE J560 in
# checklists/connectors.toml).
_BUILT_EITHER_WAY = frozenset({"licence_plate", "identification"})


def faults_for(item: Item, look: Look = "steady", *, signal: bool = False) -> tuple[Seen, ...]:
    """Tell what can be wrong with this item, the likeliest first.

    Args:
        item: a lamp, reflector or wheel end.
        look: how it should look, if it is a lamp.
        signal: a turn signal flashes meanwhile: what should be steady may follow it.
    """
    faults = _FAULTS.get(item.kind, _BY_LOOK[look])
    if signal:
        faults = tuple("pulses" if fault == "flashing" else fault for fault in faults)
    if item.kind == "wheel_end":
        return (*faults, "other")
    if item.kind in UNPLACED:
        return faults
    if item.kind in _BUILT_EITHER_WAY and look != "flashing":
        faults = (faults[0], "built_so", *faults[1:])
    return (*faults, "missing" if item.required else "not_fitted", "other")


def answer_for(step: Step, seen_as: Mapping[str, Seen]) -> Answer:
    """Return the step's answer when this was seen of some of its items.

    Anything wrong makes it a defect; all missing, *missing*. Where all that was seen is that
    something nobody requires is not fitted, the rest of the step is OK, if there is a rest; so it
    is where a lamp only hangs on another wire.
    """
    kinds = set(seen_as.values())
    if kinds <= NO_FAULT and "built_so" in kinds:
        return "ok"
    if kinds == {"not_fitted"}:
        return "ok" if any(item.required for item in step.items) else "not_fitted"
    return "missing" if kinds - NO_FAULT == {"missing"} else "defect"


def may_be_left_out(step: Step) -> bool:
    """Tell whether the vehicle may be without what it is about, since nobody requires that."""
    optional = step.kind in ("lamp", "look", "listen")
    return optional and not any(item.required for item in step.items)


def has_many_lamps(step: Step) -> bool:
    """Tell whether several circuits are on at once: such a step is answered once it was heard."""
    return step.kind == "lamp" and len(step.circuits_on) > 1
