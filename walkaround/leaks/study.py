"""Likely causes of one vehicle's lost air, from evidence to what is told of them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from walkaround.base.message import message
from walkaround.diagnosis.best_trial import best_trial, expected_outcome
from walkaround.diagnosis.figures import FigureTable
from walkaround.diagnosis.findings import Findings, NextThing, ToldCause, TriedThing
from walkaround.diagnosis.ranking import Cause, Ranking
from walkaround.leaks.messages import (
    air_outcome_said,
    air_trial_said,
    end_named,
    part_named,
    why_leak,
)
from walkaround.leaks.plumbing import Plumbing, Source, plumbing_of
from walkaround.leaks.ranking import AirEvidence, rank_leaks, was_listened
from walkaround.leaks.tables import AirTables, BrakeState
from walkaround.leaks.trials import AirTrial, air_trials_of, general_place
from walkaround.leaks.variants import AirPart, LeakVariants, leak_variants_of
from walkaround.vehicle.model import Vehicle


@dataclass(frozen=True, slots=True)
class AirStudy:
    """The plumbing of one vehicle, every leak of it, and every trial, in which causes are found."""

    plumbing: Plumbing
    variants: LeakVariants
    trials: tuple[AirTrial, ...]
    figures: FigureTable


def air_study_of(
    vehicle: Vehicle, tables: AirTables, source: Source | None = None, towed: int = 0
) -> AirStudy:
    """Make the study of a vehicle; the arguments and errors are those of `plumbing_of`."""
    plumbing = plumbing_of(vehicle, tables, source, towed)
    variants = leak_variants_of(plumbing, tables.figures)
    trials = air_trials_of(variants, plumbing.source, tables.figures)
    return AirStudy(plumbing, variants, trials, tables.figures)


def air_ranked(study: AirStudy, evidence: AirEvidence) -> Ranking[AirPart, AirTrial]:
    """Rank every leak of a vehicle by what is known."""
    return rank_leaks(study.variants, study.trials, evidence, study.figures)


def air_findings(study: AirStudy, evidence: AirEvidence) -> Findings:
    """Tell the likely causes of what was lost, and what to do next."""
    ranking = air_ranked(study, evidence)
    open_to = _open(study, evidence)
    following = best_trial(ranking, open_to, study.figures["worth_bits"])
    return Findings(
        tuple(_told(study, ranking, open_to, cause) for cause in ranking.causes),
        ranking.nothing_odd,
        _next(study, following) if following else None,
        tuple(
            TriedThing(
                trial.id,
                air_trial_said(trial, study.plumbing.source),
                air_outcome_said(trial, evidence.results[trial.id]),
            )
            for trial in study.trials
            if evidence.results.get(trial.id) in trial.outcomes
        ),
    )


def _open(study: AirStudy, evidence: AirEvidence) -> list[AirTrial]:
    """List what may be done and was not; changing how the brakes stand costs minutes.

    What is done with a line plugged or the parking brakes set has that in its minutes.
    """
    now = evidence.holds[-1].brakes if evidence.holds else None
    more = study.figures["minutes_change"]
    return [
        replace(trial, minutes=trial.minutes + more) if _needs_other_brakes(trial, now) else trial
        for trial in study.trials
        if not _done(trial, evidence)
    ]


def _needs_other_brakes(trial: AirTrial, now: BrakeState | None) -> bool:
    """Tell whether the brakes must be released or applied first."""
    return trial.brakes not in (None, "dumped", now) and now is not None


def _done(trial: AirTrial, evidence: AirEvidence) -> bool:
    if trial.what == "listen" and trial.brakes:
        return was_listened(evidence, trial.brakes)
    return trial.id in evidence.results


def _proves(trial: AirTrial, part: AirPart) -> bool:
    """Tell whether what is done at one wheel is done where this part is."""
    at_a_wheel = general_place(trial.place) != trial.place
    return not at_a_wheel or trial.place.endswith(part.place)


def _told(
    study: AirStudy,
    ranking: Ranking[AirPart, AirTrial],
    open_to: list[AirTrial],
    cause: Cause[AirPart],
) -> ToldCause:
    # Soap at one wheel proves nothing of the part at another.
    proving = [trial for trial in open_to if _proves(trial, cause.fault)]
    trial = best_trial(ranking, proving, study.figures["worth_bits"], cause)
    name = part_named(cause.fault)
    next_said = message("cause-next-none", cause=name)
    if trial:
        outcome = air_outcome_said(trial, expected_outcome(ranking, trial, cause))
        say = air_trial_said(trial, study.plumbing.source)
        next_said = message("cause-next", trial=say, outcome=outcome, cause=name)
    return ToldCause(
        fault=cause.fault,
        share=cause.share,
        same_look=cause.same_look,
        explains=cause.explains,
        name=name,
        same_look_names=tuple(end_named(part.place) for part in cause.same_look),
        why=why_leak(cause.fault),
        next=next_said,
        trial=trial.id if trial else "",
    )


def _next(study: AirStudy, trial: AirTrial) -> NextThing:
    outcomes = tuple((id_, air_outcome_said(trial, id_)) for id_ in trial.outcomes)
    return NextThing(trial.id, air_trial_said(trial, study.plumbing.source), outcomes)
