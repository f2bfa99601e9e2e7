"""Likely causes, ranked: how well each fault explains what was seen and measured, and its prior.

Every look is taken for itself: the likelihood of a variant is the product of how often its looks
would be called what was said. A fault weighs what its variants weigh together; one that explains
nothing of what is odd weighs little: somebody would have erred, and missed the fault besides.
Faults that explain all that was seen alike, look by look, are one cause; they are told apart by
what is done next.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from walkaround.causes.faults import Fault, prior
from walkaround.causes.figures import Look
from walkaround.causes.network import Flags, Floats, Network, Numbers
from walkaround.causes.predictions import Predictions, Setting, predict
from walkaround.causes.sights import Condition, Sights, chance_said, sights_of
from walkaround.causes.trials import Trial, trials_of

AGREES = 0.3
"""A fault that has at least this chance of what was seen explains it."""
LEAST_SHARE = 0.001
LISTED_ANYWAY = 3
"""Causes with less than that share are not listed, beyond so many."""


class Sighting(NamedTuple):
    """One look: of this housing, or of one at least of several, in this setting."""

    setting: Setting
    housings: tuple[str, ...]
    look: Look


@dataclass(frozen=True, slots=True)
class Evidence:
    """Everything that is known of one vehicle.

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
        found = {id_.split(":")[1]: out for id_, out in self.results.items() if id_[:5] == "ohms:"}
        opened = {
            id_.split(":")[1]
            for id_, outcome in self.results.items()
            if id_.startswith("breaker:") and outcome == "tripped"
        }
        tripped = (self.tripped or frozenset()) | opened
        return frozenset(circuit for circuit in tripped if found.get(circuit) != "open")


class Cause(NamedTuple):
    """A fault that may be the cause, and those that explain what was seen just as it does.

    Attributes:
        share: of all that is listed; the shares of a ranking sum to 1.
        same_look: the other faults, the likeliest first.
        explains: something of what is odd; a fault that does not is one that nobody would have
            seen, beside an error of the eyes.
    """

    fault: Fault
    share: float
    same_look: tuple[Fault, ...]
    explains: bool


class Ranking(NamedTuple):
    """The likely causes, the likeliest first.

    Attributes:
        nothing_odd: all that was seen is what a vehicle without a fault shows; the causes are
            then faults that would not have shown in it.
        before: the weight of each variant before anything was seen.
        weights: of each variant, as shares.
        fault_of: the place of each variant's fault in `faults`.
    """

    causes: tuple[Cause, ...]
    nothing_odd: bool
    faults: tuple[Fault, ...]
    before: Floats
    weights: Floats
    fault_of: Numbers
    trials: tuple[Trial, ...]


class Predicted(NamedTuple):
    """Everything that does not depend on what was seen, but on the settings that were looked at."""

    predictions: Predictions
    sights: Sights
    trials: tuple[Trial, ...]


def predicted(
    network: Network, flashing: frozenset[str], settings: Iterable[Setting], *, towed: bool
) -> Predicted:
    """Work out every fault of a network in each circuit alone and in these settings.

    Args:
        network: of the vehicle.
        flashing: circuits that flash when they are on alone.
        settings: that were looked at.
        towed: the vehicle hangs on a cable.
    """
    alone = [Setting(frozenset({c}), flashing & {c}) for c in network.circuits]
    predictions = predict(network, tuple(dict.fromkeys([*alone, *settings])))
    sights = sights_of(predictions)
    return Predicted(predictions, sights, trials_of(predictions, sights, towed=towed))


def rank(before_looking: Predicted, evidence: Evidence) -> Ranking:
    """Rank every single fault of a network by what was seen and measured.

    Args:
        before_looking: of the vehicle, with every setting that was looked at.
        evidence: what is known; none of its circuits and housings are unknown to the network.
    """
    predictions, sights, trials = before_looking
    network = predictions.network
    chances = np.vstack(
        [
            *_of_sightings(predictions, sights, evidence),
            *_of_trips(predictions, evidence),
            *_of_results(trials, evidence),
            np.ones(len(predictions.variants) + 1),
        ]
    )
    variants = predictions.variants
    faults = tuple(dict.fromkeys(variant.fault for variant in variants))
    place = {fault: at for at, fault in enumerate(faults)}
    fault_of = np.array([place[variant.fault] for variant in variants], dtype=np.intp)
    before = np.array([variant.share * prior(variant.fault, network) for variant in variants])
    agrees = chances >= AGREES
    odd = ~agrees[:, -1]
    idle = np.asarray(odd.any() & ~agrees[odd, :-1].any(axis=0))
    ln = np.log(before * np.where(idle, network.figures["explains_nothing"], 1.0))
    ln += np.log(chances[:, :-1]).sum(axis=0)
    weights = np.exp(ln - ln.max())
    weights /= weights.sum()
    looks = _looks_key(predictions, sights, evidence, agrees)
    return Ranking(
        causes=_causes(faults, weights, fault_of, looks, idle),
        nothing_odd=not odd.any(),
        faults=faults,
        before=before,
        weights=weights,
        fault_of=fault_of,
        trials=trials,
    )


def _of_sightings(predictions: Predictions, sights: Sights, evidence: Evidence) -> list[Floats]:
    """The chance of each sighting with each variant."""
    figures, conditions = predictions.network.figures, evidence.conditions
    looks = {sighting.look for sighting in evidence.sightings}
    fits = sights.shares / sights.shares.max(axis=-1, keepdims=True)
    chances = {look: chance_said(fits, look, figures, conditions) for look in looks}
    found = []
    for setting, housings, look in evidence.sightings:
        at = [sights.housings.index(housing) for housing in housings]
        of_each = chances[look][:, predictions.settings.index(setting), at]
        found.append(1 - np.prod(1 - of_each, axis=1))
    return found


def _of_trips(predictions: Predictions, evidence: Evidence) -> list[Floats]:
    """The chance of what was said of breakers; a short that nobody tells of is less likely."""
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


def _of_results(trials: Sequence[Trial], evidence: Evidence) -> list[Floats]:
    """The chance of each outcome with each variant; an unknown one says nothing."""
    by_id = {trial.id: trial for trial in trials}
    return [
        by_id[id_].chances[by_id[id_].outcomes.index(outcome)]
        for id_, outcome in evidence.results.items()
        if id_ in by_id and outcome in by_id[id_].outcomes
    ]


def _looks_key(
    predictions: Predictions, sights: Sights, evidence: Evidence, agrees: Flags
) -> Numbers:
    """What each variant says of each thing known: 0 where it agrees, else how it would look."""
    key = np.where(agrees, 0, 1)
    for place, (setting, housings, _) in enumerate(evidence.sightings):
        if len(housings) == 1:
            at = sights.housings.index(housings[0])
            shares = sights.shares[:, predictions.settings.index(setting), at]
            key[place] *= 1 + shares.argmax(axis=1)
    return key[:, :-1]


def _causes(
    faults: Sequence[Fault], weights: Floats, fault_of: Numbers, looks: Numbers, idle: Flags
) -> tuple[Cause, ...]:
    """Faults with one look together, as each looks in the variant that explains most."""
    total = np.bincount(fault_of, weights=weights, minlength=len(faults))
    alike: dict[bytes, list[int]] = {}
    explaining: set[int] = set()
    for place in np.argsort(-total, kind="stable"):
        variants = np.flatnonzero(fault_of == place)
        best = variants[weights[variants].argmax()]
        alike.setdefault(looks[:, best].tobytes(), []).append(int(place))
        if not idle[best]:
            explaining.add(int(place))
    groups = sorted(alike.values(), key=lambda group: -total[group].sum())
    listed = [
        group
        for place, group in enumerate(groups)
        if place < LISTED_ANYWAY or total[group].sum() >= LEAST_SHARE
    ]
    whole = sum(total[group].sum() for group in listed)
    return tuple(
        Cause(
            faults[first],
            float(total[[first, *others]].sum() / whole),
            tuple(faults[other] for other in others),
            first in explaining,
        )
        for first, *others in listed
    )
