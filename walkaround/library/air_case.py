"""The `[air]` table of a case file: pressure losses of air holds, what was heard, and trials."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated

from pydantic import Field

from walkaround.base.checks import Flaw, unknown
from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.base.toml_model import Number, Positive, Written, nearest
from walkaround.leaks.plumbing import Source
from walkaround.leaks.ranking import AirEvidence, HoldLosses, JudgedLoss, MeasuredLoss
from walkaround.leaks.study import AirStudy, air_study_of
from walkaround.leaks.tables import BrakeState
from walkaround.leaks.trials import told_places
from walkaround.leaks.variants import NOTHING
from walkaround.library.standard_tables import standard_tables
from walkaround.rules.limits import Line
from walkaround.vehicle.model import Vehicle

_LIMITS: Mapping[BrakeState, float] = {"released": 2.0, "applied": 3.0, "dumped": 2.0}
"""Psi a minute, the limits of 49 CFR 570.57(a)(5), (6) for one vehicle; used if a case has none."""


class CaseHold(Written):
    """One air hold, or one state of the brakes in which somebody listened.

    Attributes:
        brakes: the state of the brakes.
        lost: the loss of each gauge, psi a minute.
        judged: whether each gauge was `over` the limit or `within` it.
        limit: psi a minute; if left out, that of 49 CFR 570.57 for one vehicle.
        heard: where a leak was heard, or "nothing"; if left out, nobody listened.
    """

    brakes: BrakeState
    lost: Mapping[Line, Number] = Field(default_factory=dict)
    judged: Mapping[Line, Annotated[str, Field(pattern=r"^(over|within)$")]] = Field(
        default_factory=dict
    )
    limit: Positive | None = None
    heard: tuple[str, ...] = ()


class AirCase(Written):
    """The air of a vehicle in a case file.

    Attributes:
        source: the air source; if left out, shop air for a towed vehicle, else its own.
        towed: the number of units that a power unit tows.
        hold: the holds, as often as they were done.
        found: the outcome of each trial, by its id.
    """

    source: Source | None = None
    towed: Annotated[int, Field(ge=0, le=3)] = 0
    hold: tuple[CaseHold, ...] = ()
    found: Mapping[str, str] = Field(default_factory=dict)


def study_air_case(case: AirCase, vehicle: Vehicle, where: str) -> tuple[AirStudy, AirEvidence]:
    """Make the study of a vehicle's air, and the evidence from a case.

    Args:
        case: the air of the case.
        vehicle: the vehicle.
        where: the path of the case file, for problems.

    Raises:
        InputError: the vehicle has no such air, or the case names what it does not have.
    """
    study = air_study_of(vehicle, standard_tables().air, case.source, case.towed)
    if flaws := [*_unknown(case, study)]:
        raise InputError(Problem(where, *flaw) for flaw in flaws)
    heard: dict[BrakeState, tuple[str, ...]] = {}
    for hold in case.hold:
        heard[hold.brakes] = (*heard.get(hold.brakes, ()), *hold.heard)
    heard_places = {brakes: _heard_places(places) for brakes, places in heard.items() if places}
    return study, AirEvidence(
        tuple(_evidence_of(hold, study) for hold in case.hold), heard_places, case.found
    )


def _evidence_of(hold: CaseHold, study: AirStudy) -> HoldLosses:
    limit, error = hold.limit or _LIMITS[hold.brakes], study.figures["rate_error"]
    lost = {gauge: MeasuredLoss(rate, error) for gauge, rate in hold.lost.items()}
    judged = {gauge: JudgedLoss(word == "over", limit) for gauge, word in hold.judged.items()}
    return HoldLosses(hold.brakes, {**judged, **lost})


def _heard_places(places_heard: tuple[str, ...]) -> tuple[str, ...]:
    """Return where leaks were heard; among others, `NOTHING` means that the rest was quiet."""
    return tuple(place for place in places_heard if place != NOTHING) or (NOTHING,)


def _unknown(case: AirCase, study: AirStudy) -> Iterator[Flaw]:
    places = (*study.variants.places, *told_places(study.variants))
    for number, hold in enumerate(case.hold, start=1):
        for key, gauges in (("lost", hold.lost), ("judged", hold.judged)):
            for gauge in gauges:
                if gauge not in study.plumbing.gauges:
                    what = message("trouble-unknown-gauge", name=gauge)
                    yield unknown(f"air.hold {number}.{key}", what, gauge, study.plumbing.gauges)
        for place in hold.heard:
            if place not in places:
                what = message("trouble-unknown-place", name=place)
                yield unknown(f"air.hold {number}.heard", what, place, places)
    trials = {trial.id: trial.outcomes for trial in study.trials}
    for id_, outcome in case.found.items():
        if outcome not in trials.get(id_, ()):
            yield unknown_result(f"air.found.{id_}", id_, outcome, trials)


def unknown_result(
    key: str, trial: str, outcome: str, trials: Mapping[str, tuple[str, ...]]
) -> Flaw:
    """Return the flaw of a trial that a vehicle does not have, or of an impossible outcome."""
    if trial not in trials:
        return unknown(key, message("trouble-unknown-trial", name=trial), trial, trials)
    what = message("trouble-unknown-outcome", name=outcome)
    return Flaw(key, what, nearest(outcome, trials[trial]))
