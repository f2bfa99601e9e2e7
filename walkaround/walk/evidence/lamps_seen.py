"""What the answers of a walk tell of its lamps, look by look, for the likely causes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.causes.appearance import Condition
from walkaround.causes.figures import LampLook
from walkaround.causes.predictions import LitCircuits
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import Study
from walkaround.plan.steps import OTHERS, Step
from walkaround.walk.events import Answered, Seen
from walkaround.walk.state import Walk

_LOOK: Mapping[Seen, LampLook] = {
    "dark": "dark",
    "dim": "dim",
    "too_bright": "bright",
    "flickers": "flicker",
    "steady": "steady",
    "flashing": "pulsing",
    "pulses": "pulsing",
    "glows": "glow",
    "some_out": "some_out",
    "flashes_fast": "fast",
    "flashes_slow": "slow",
    "wrong_lamp": "lit",
}
"""What a fault that was told of a lamp says of its light; the others say nothing of it."""
_ANSWERED = frozenset({"ok", "defect", "missing", "not_fitted"})


def lamps_seen(
    walk: Walk, study: Study, conditions: frozenset[Condition] = frozenset()
) -> LampEvidence:
    """Gather what the last answers of a walk's lamp steps say of each housing.

    Of a step that was answered every housing counts: what no fault was told of is as it should be.
    A fault of a whole step says nothing of one of them.
    What was tried since counts too.

    Args:
        walk: its vehicle is the one of the study.
        study: of the vehicle.
        conditions: what made the eyes err.
    """
    answered = ((step, walk.answers.get(step.id)) for step in walk.steps if step.kind == "lamp")
    sightings = [
        sighting
        for step, answered_event in answered
        if answered_event is not None
        and (
            answered_event.answer == "ok"
            or (answered_event.seen and answered_event.answer in _ANSWERED)
        )
        for sighting in _of_step(step, answered_event, study)
    ]
    return LampEvidence(tuple(sightings), conditions=conditions, results=dict(walk.tried))


def _of_step(step: Step, answered: Answered, study: Study) -> Iterator[Sighting]:
    setting = lit_circuits(step, study)
    wired = {load.housing for load in study.network.loads if load.circuit in setting.on}
    # The ABS lamp is also looked at on the stop circuit, which feeds it by way of its control unit.
    housings = [
        housing
        for housing, look in step.expect.items()
        if housing in study.housings and (look != "dark") == (housing in wired)
    ]
    dark = tuple(housing for housing in housings if step.expect[housing] == "dark")
    told_of_others = _LOOK.get(answered.seen[OTHERS]) if OTHERS in answered.seen else None
    for housing in housings:
        if housing in answered.seen:
            if look := _LOOK.get(answered.seen[housing]):
                yield Sighting(setting, (housing,), look)
        elif housing in wired:
            yield Sighting(setting, (housing,), "lit")
        elif OTHERS not in answered.seen:
            yield Sighting(setting, (housing,), "dark")
    if told_of_others and dark:
        yield Sighting(setting, dark, told_of_others)


def lit_circuits(step: Step, study: Study) -> LitCircuits:
    """Give the setting of a lamp step.

    A circuit flashes as its housings do here; where none is seen, as it does by itself.
    """
    on = frozenset(step.circuits_on) & frozenset(study.network.circuits)
    flashing = set()
    for circuit in on & study.flashing:
        looks = {
            step.expect[load.housing]
            for load in study.network.loads
            if load.circuit == circuit and load.housing in step.expect
        }
        if not looks or "flashing" in looks:
            flashing.add(circuit)
    return LitCircuits(on, frozenset(flashing))
