"""The chances that the faults of lamps have of what was seen and measured; by them they are ranked.

Every look is taken for itself: the likelihood of a variant is the product of how often its looks
would be called what was said. Faults that explain all that was seen alike, look by look, are one
cause; they are told apart by what is done next.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from walkaround.causes.appearance import Condition, HousingLooks, chance_said, predict_housing_looks
from walkaround.causes.faults import LampFault, prior
from walkaround.causes.figures import LampLook
from walkaround.causes.network import Flags, Floats, Network, Numbers
from walkaround.causes.predictions import LitCircuits, Predictions, predict
from walkaround.causes.trials import LampTrial, trials_of
from walkaround.diagnosis.ranking import AGREES, Ranking, ranking_of


class Sighting(NamedTuple):
    """One look: of this housing, or of one at least of several, in this setting."""

    setting: LitCircuits
    housings: tuple[str, ...]
    look: LampLook


@dataclass(frozen=True, slots=True)
class LampEvidence:
    """The evidence on one vehicle's lamps.

    Attributes:
        tripped: circuits whose breaker or fuse opened; None where nothing was said of them.
        conditions: what made the eyes err.
        results: what came out of each trial, by the trial's id.
    """

    sightings: tuple[Sighting, ...] = ()
    tripped: frozenset[str] | None = None
    conditions: frozenset[Condition] = frozenset()
    results: Mapping[str, str] = field(default_factory=dict)

    @property
    def isolated(self) -> frozenset[str]:
        """Circuits that are not to be fed: their breaker opened, and no short was ruled out."""
        outcome_of = {
            id_.split(":")[1]: out for id_, out in self.results.items() if id_[:5] == "ohms:"
        }
        opened = {
            id_.split(":")[1]
            for id_, outcome in self.results.items()
            if id_.startswith("breaker:") and outcome == "tripped"
        }
        tripped = (self.tripped or frozenset()) | opened
        return frozenset(circuit for circuit in tripped if outcome_of.get(circuit) != "open")


class Predicted(NamedTuple):
    """The predictions for the settings that were looked at, whatever was seen."""

    predictions: Predictions
    housing_looks: HousingLooks
    trials: tuple[LampTrial, ...]


def predict_faults(
    network: Network,
    flashing: frozenset[str],
    settings: Iterable[LitCircuits],
    *,
    towed: bool,
    alone: frozenset[str],
) -> Predicted:
    """Work out every fault of a network in each circuit alone and in these settings.

    Args:
        network: of the vehicle.
        flashing: circuits that flash when they are on alone.
        settings: that were looked at.
        towed: a cable feeds the vehicle.
        alone: circuits that can be lit without any other.
    """
    single = [LitCircuits(frozenset({c}), flashing & {c}) for c in network.circuits]
    predictions = predict(network, tuple(dict.fromkeys([*single, *settings])))
    housing_looks = predict_housing_looks(predictions)
    trials = trials_of(predictions, housing_looks, towed=towed, alone=alone)
    return Predicted(predictions, housing_looks, trials)


def rank_faults(before_looking: Predicted, evidence: LampEvidence) -> Ranking[LampFault, LampTrial]:
    """Rank every single fault of a network by what was seen and measured.

    Args:
        before_looking: of the vehicle, with every setting that was looked at.
        evidence: what is known; none of its circuits and housings are unknown to the network.
    """
    predictions, housing_looks, trials = before_looking
    network, variants = predictions.network, predictions.variants
    chances = np.vstack(
        [
            *_of_sightings(predictions, housing_looks, evidence),
            *_of_trips(predictions, evidence),
            *_of_results(trials, evidence),
            np.ones(len(variants) + 1),
        ]
    )
    return ranking_of(
        [variant.fault for variant in variants],
        np.array([variant.share * prior(variant.fault, network) for variant in variants]),
        chances,
        _looks_key(predictions, housing_looks, evidence, chances >= AGREES),
        network.figures["explains_nothing"],
        trials,
    )


def _of_sightings(
    predictions: Predictions, housing_looks: HousingLooks, evidence: LampEvidence
) -> list[Floats]:
    """Return the chance of each sighting with each variant."""
    figures, conditions = predictions.network.figures, evidence.conditions
    looks = {sighting.look for sighting in evidence.sightings}
    fits = housing_looks.shares / housing_looks.shares.max(axis=-1, keepdims=True)
    chances = {look: chance_said(fits, look, figures, conditions) for look in looks}
    of_sightings = []
    for setting, housings, look in evidence.sightings:
        at = [housing_looks.housings.index(housing) for housing in housings]
        of_each = chances[look][:, predictions.settings.index(setting), at]
        of_sightings.append(1 - np.prod(1 - of_each, axis=1))
    return of_sightings


def _of_trips(predictions: Predictions, evidence: LampEvidence) -> list[Floats]:
    """Return the chances of what was said of breakers; an untold short is less likely."""
    network = predictions.network
    figures = network.figures
    shorted = np.zeros((len(predictions.variants) + 1, len(network.circuits)), dtype=np.bool_)
    for place, variant in enumerate(predictions.variants):
        if variant.fault.kind == "shorted":
            shorted[place, variant.at[0]] = True
    if evidence.tripped is None:
        return [np.where(shorted.any(axis=1), figures["trip_not_told"], 1.0)]
    tripped = np.array([circuit in evidence.tripped for circuit in network.circuits])
    wrong = figures["misread_trip"]
    return [*np.where(shorted == tripped, 1 - wrong, wrong).T]


def _of_results(trials: Sequence[LampTrial], evidence: LampEvidence) -> list[Floats]:
    """Return the chance of each outcome with each variant; an unknown one says nothing."""
    by_id = {trial.id: trial for trial in trials}
    return [
        by_id[id_].chances[by_id[id_].outcomes.index(outcome)]
        for id_, outcome in evidence.results.items()
        if id_ in by_id and outcome in by_id[id_].outcomes
    ]


def _looks_key(
    predictions: Predictions, housing_looks: HousingLooks, evidence: LampEvidence, agrees: Flags
) -> Numbers:
    """Return what each variant says of each thing known: 0 if it agrees, else how it would look."""
    key = np.where(agrees, 0, 1)
    for place, (setting, housings, _) in enumerate(evidence.sightings):
        if len(housings) == 1:
            at = housing_looks.housings.index(housings[0])
            shares = housing_looks.shares[:, predictions.settings.index(setting), at]
            key[place] *= 1 + shares.argmax(axis=1)
    return key[:, :-1]
