"""Likely causes of one vehicle's lamps, from evidence to what is told of them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace

from walkaround.base.message import message
from walkaround.causes.faults import LampFault
from walkaround.causes.figures import LampFigures
from walkaround.causes.messages import (
    Names,
    fault_named,
    names_of,
    outcome_said,
    trial_said,
    why_fault,
)
from walkaround.causes.network import Network, network_of
from walkaround.causes.next_trial import next_look, next_thing
from walkaround.causes.predictions import LitCircuits
from walkaround.causes.ranking import LampEvidence, Predicted, predict_faults, rank_faults
from walkaround.causes.trials import LampTrial
from walkaround.diagnosis.best_trial import expected_outcome
from walkaround.diagnosis.findings import Findings, NextThing, ToldCause, TriedThing
from walkaround.diagnosis.ranking import Cause, Ranking
from walkaround.lamps.bulbs import Bulb, filaments_of
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Wiring
from walkaround.vehicle.model import POWER_UNITS, Vehicle


@dataclass(frozen=True, slots=True)
class Study:
    """The network of one vehicle's lamps and the names of its parts, in which causes are found.

    Attributes:
        flashing: circuits that flash when they are on alone.
        towed: a cable that can be changed feeds it.
        alone: circuits that what feeds them can light without any other.
        cache: what was worked out last, by the settings looked at besides single circuits.
    """

    network: Network
    names: Names
    flashing: frozenset[str]
    towed: bool
    alone: frozenset[str]
    cache: dict[frozenset[LitCircuits], Predicted] = field(default_factory=dict)

    @property
    def housings(self) -> tuple[str, ...]:
        """What the eye sees as one lamp, by id."""
        return tuple(dict.fromkeys(load.housing for load in self.network.loads))

    def setting(self, circuits: Sequence[str]) -> LitCircuits:
        """Give the setting in which these circuits are on, turn signals flashing."""
        on = frozenset(circuits)
        return LitCircuits(on, self.flashing & on)


def study_of(
    vehicle: Vehicle,
    lamps: Sequence[Lamp],
    wiring: Wiring,
    bulbs: Sequence[Bulb],
    figures: LampFigures,
    alone: Collection[str] | None = None,
) -> Study:
    """Make the study of a vehicle.

    Args:
        vehicle, lamps, wiring: as `lamps_for` and `wire` have them.
        bulbs, figures: the standards' tables.
        alone: circuits that can be lit without any other; each of them if not said.

    Raises:
        InputError: the vehicle names a bulb that is not in the table.
    """
    network = network_of(vehicle, wiring, filaments_of(vehicle, lamps, wiring, bulbs), figures)
    return Study(
        network=network,
        names=names_of(network, lamps, wiring),
        flashing=frozenset(circuit.id for circuit in wiring.circuits if circuit.flashes),
        towed=vehicle.kind not in POWER_UNITS,
        alone=frozenset(network.circuits if alone is None else alone),
    )


def rank_lamp_faults(study: Study, evidence: LampEvidence) -> Ranking[LampFault, LampTrial]:
    """Rank the single faults of a vehicle by what was seen and measured."""
    alone = {study.setting([circuit]) for circuit in study.network.circuits}
    together = frozenset(sighting.setting for sighting in evidence.sightings) - alone
    if together not in study.cache:
        study.cache.clear()
        ordered = sorted(together, key=lambda setting: sorted(setting.on))
        study.cache[together] = predict_faults(
            study.network, study.flashing, ordered, towed=study.towed, alone=study.alone
        )
    return rank_faults(study.cache[together], evidence)


def lamp_findings(study: Study, evidence: LampEvidence) -> Findings:
    """Tell the likely causes of what was seen, and what to do next."""
    ranking = rank_lamp_faults(study, evidence)
    figures = study.network.figures
    # Diodes are seen of nothing but an LED, whatever the file says.
    diodes = {
        (housing, circuit)
        for setting, housings, look in evidence.sightings
        if look == "some_out"
        for housing in housings
        for circuit in setting.on
    }
    study = replace(study, names=replace(study.names, leds=study.names.leds | diodes))
    following = next_thing(ranking, evidence, figures)
    return Findings(
        tuple(_findings_of(study, ranking, evidence, cause) for cause in ranking.causes),
        ranking.nothing_odd,
        _next(study, following) if following else None,
        tuple(
            TriedThing(
                trial.id,
                trial_said(trial, study.names),
                outcome_said(trial, evidence.results[trial.id], figures["ground_volts_good"]),
            )
            for trial in ranking.trials
            if evidence.results.get(trial.id) in trial.outcomes
        ),
    )


def one_more_look(study: Study, evidence: LampEvidence) -> NextThing | None:
    """Choose the look with one circuit on that would split the list of causes; None if none would.

    It is asked for while the mechanic is still at the lamps, so that it costs little.
    """
    ranking = rank_lamp_faults(study, evidence)
    if ranking.nothing_odd:
        return None
    trial = next_look(ranking, evidence, study.network.figures)
    return _next(study, trial) if trial else None


def _findings_of(
    study: Study,
    ranking: Ranking[LampFault, LampTrial],
    evidence: LampEvidence,
    cause: Cause[LampFault],
) -> ToldCause:
    figures = study.network.figures
    trial = next_thing(ranking, evidence, figures, cause)
    name = fault_named(cause.fault, study.names)
    next_said = message("cause-next-none", cause=name)
    if trial:
        outcome = expected_outcome(ranking, trial, cause)
        outcome_text = outcome_said(trial, outcome, figures["ground_volts_good"])
        say = trial_said(trial, study.names)
        next_said = message("cause-next", trial=say, outcome=outcome_text, cause=name)
    return ToldCause(
        fault=cause.fault,
        share=cause.share,
        same_look=cause.same_look,
        explains=cause.explains,
        name=name,
        same_look_names=tuple(fault_named(fault, study.names) for fault in cause.same_look),
        why=why_fault(cause.fault, study.names),
        next=next_said,
        trial=trial.id if trial else "",
    )


def _next(study: Study, trial: LampTrial) -> NextThing:
    most = study.network.figures["ground_volts_good"]
    outcomes = tuple((id_, outcome_said(trial, id_, most)) for id_ in trial.outcomes)
    return NextThing(trial.id, trial_said(trial, study.names), outcomes)
