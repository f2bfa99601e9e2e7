"""Leaks ranked by what is known: what each gauge lost in each hold, what was heard, what was tried.

Wheel ends of one kind of part that explain everything alike are one cause: which of them it is, is
found by ear or with soap.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from walkaround.diagnosis.figures import FigureTable
from walkaround.diagnosis.ranking import AGREES, Floats, Numbers, Ranking, ranking_of
from walkaround.leaks.tables import BrakeState
from walkaround.leaks.trials import AirTrial, heard_at, told_places
from walkaround.leaks.variants import AirPart, LeakVariants, over_chances, rate_chances
from walkaround.rules.limits import Line

_AT_A_WHEEL = "axle_"


class MeasuredLoss(NamedTuple):
    """The loss of a gauge in a hold, psi a minute, and the standard deviation of that."""

    psi_per_min: float
    error: float


class JudgedLoss(NamedTuple):
    """A judgment that a gauge was over its limit, psi a minute, or within it."""

    over: bool
    limit: float


@dataclass(frozen=True, slots=True)
class HoldLosses:
    """One air hold: how the brakes stood, and what each gauge that was read lost."""

    brakes: BrakeState
    gauges: Mapping[Line, MeasuredLoss | JudgedLoss]


@dataclass(frozen=True, slots=True)
class AirEvidence:
    """The evidence on one vehicle's air.

    Attributes:
        heard: where something was heard while the brakes stood so, one place at least or
            `nothing`; without an entry nobody listened.
        results: what came out of each trial, by the trial's id.
    """

    holds: tuple[HoldLosses, ...] = ()
    heard: Mapping[BrakeState, tuple[str, ...]] = field(default_factory=dict)
    results: Mapping[str, str] = field(default_factory=dict)


def rank_leaks(
    variants: LeakVariants,
    trials: tuple[AirTrial, ...],
    evidence: AirEvidence,
    figures: FigureTable,
) -> Ranking[AirPart, AirTrial]:
    """Rank every leak of a vehicle by what is known.

    Args:
        variants, trials: of the vehicle.
        evidence: what is known; its gauges and places are the vehicle's.
        figures: how gauges and ears err.
    """
    chances = np.vstack(
        [
            *_of_gauges(variants, evidence, figures),
            *_of_ears(variants, evidence),
            *_of_results(trials, evidence),
            np.ones(len(variants.parts) + 1),
        ]
    )
    return ranking_of(
        variants.parts,
        variants.before,
        chances,
        np.vstack([(chances >= AGREES)[:, :-1], _look_groups(variants.parts)]),
        figures["explains_nothing"],
        trials,
    )


def _of_gauges(
    variants: LeakVariants, evidence: AirEvidence, figures: FigureTable
) -> Iterator[Floats]:
    for hold in evidence.holds:
        for gauge, loss in hold.gauges.items():
            rates = variants.rates[hold.brakes][variants.gauges.index(gauge)]
            if isinstance(loss, MeasuredLoss):
                yield rate_chances(rates, loss.psi_per_min, loss.error, figures)
            else:
                over = over_chances(rates, loss.limit, figures)
                yield over if loss.over else 1 - over


def _of_ears(variants: LeakVariants, evidence: AirEvidence) -> Iterator[Floats]:
    """Yield the chances of what was heard: the leak is at one of the places at least.

    A place that the vehicle does not have, as an older walk may name one, says nothing.
    """
    places = {*variants.places, *told_places(variants)}
    for brakes, places_told in evidence.heard.items():
        place_chances = [
            heard_at(variants, brakes, place) for place in places_told if place in places
        ]
        if place_chances:
            yield 1 - np.prod(1 - np.array(place_chances), axis=0)


def _of_results(trials: Sequence[AirTrial], evidence: AirEvidence) -> Iterator[Floats]:
    """Yield the chance of each outcome with each variant; an unknown one says nothing."""
    by_id = {trial.id: trial for trial in trials}
    for id_, outcome in evidence.results.items():
        trial = by_id.get(id_)
        if trial and outcome in trial.outcomes:
            yield trial.chances[trial.outcomes.index(outcome)]


def _look_groups(parts: Sequence[AirPart]) -> Numbers:
    """Number the parts, with one number for all of a kind at the wheels."""
    names = [part.kind if part.place.startswith(_AT_A_WHEEL) else part for part in parts]
    number = {name: at for at, name in enumerate(dict.fromkeys(names))}
    return np.array([number[name] for name in names], dtype=np.intp)


def was_listened(evidence: AirEvidence, brakes: BrakeState) -> bool:
    """Tell whether somebody listened while the brakes stood so."""
    return bool(evidence.heard.get(brakes)) or f"listen:{brakes}" in evidence.results
