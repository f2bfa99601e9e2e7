"""A mechanic who does what is said next, with a fault that only the tests know."""

from __future__ import annotations

import random
from dataclasses import replace

import numpy as np
from support.lampcases import alone

from walkaround.causes.faults import LampFault
from walkaround.causes.figures import LAMP_LOOKS, LampLook
from walkaround.causes.next_trial import next_thing
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import Study, rank_lamp_faults
from walkaround.causes.trials import LampTrial
from walkaround.diagnosis.ranking import Ranking

MOST_THINGS = 15
ONE_LEFT = 0.9
"""One cause is left when it has this share."""
PLAINLY: dict[LampLook, LampLook] = {"bright": "lit", "fast": "lit", "slow": "lit", "glow": "dark"}


def seen_with(study: Study, variant: int) -> LampEvidence:
    """What is seen of every housing, each circuit alone, with this variant of a fault."""
    rank_lamp_faults(study, LampEvidence())
    [kept] = study.cache.values()
    looks = kept.housing_looks.shares[variant].argmax(axis=-1)
    sightings = []
    for setting in alone(study):
        place = kept.predictions.settings.index(setting)
        for at, housing in enumerate(study.housings):
            look = LAMP_LOOKS[looks[place, at]]
            sightings.append(Sighting(setting, (housing,), PLAINLY.get(look, look)))
    return LampEvidence(tuple(sightings))


def outcome(trial: LampTrial, variant: int, chance: random.Random) -> str:
    """What comes out of a trial with this variant: what must, or as it falls."""
    chances = trial.chances[: len(trial.outcomes), variant]
    if chances.max() > 0.7:
        return trial.outcomes[int(chances.argmax())]
    return chance.choices(trial.outcomes, chances)[0]


def until_one_is_left(
    study: Study, variant: int, chance: random.Random
) -> tuple[list[str], LampEvidence, Ranking[LampFault, LampTrial]]:
    """The things done one after the other, and what is known and ranked at the end."""
    evidence, done = seen_with(study, variant), []
    ranking = rank_lamp_faults(study, evidence)
    while len(done) < MOST_THINGS and by_fault(ranking).max() <= ONE_LEFT:
        trial = next_thing(ranking, evidence, study.network.figures)
        if trial is None:
            break
        done.append(trial.id)
        found = outcome(trial, variant, chance)
        evidence = replace(evidence, results={**evidence.results, trial.id: found})
        ranking = rank_lamp_faults(study, evidence)
    return done, evidence, ranking


def by_fault(
    ranking: Ranking[LampFault, LampTrial],
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """The share of each fault."""
    return np.bincount(ranking.fault_of, weights=ranking.weights)
