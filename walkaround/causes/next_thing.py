"""The next thing to do: what is expected to narrow the list of causes most for its minutes.

How much a trial narrows is the information, in bits, between what comes out of it and which fault
it is, over all that is still likely. One that tells less than is worth the way is not asked for.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from walkaround.causes.figures import Figures
from walkaround.causes.network import Floats
from walkaround.causes.ranking import Cause, Evidence, Ranking
from walkaround.causes.trials import Trial, allowed

LIKELY_ENOUGH = 0.02
"""A circuit more likely shorted than this is not fed before its breaker was looked at."""
_UNLIKELY = 1e-5
"""Variants with a smaller share do not count."""
_NOTHING = 1e-300


def next_thing(
    ranking: Ranking, evidence: Evidence, figures: Figures, cause: Cause | None = None
) -> Trial | None:
    """Choose what to do next; None where nothing that may be done tells enough.

    Args:
        ranking: by this evidence.
        evidence: what is known; nothing is done twice, and no circuit is fed that has tripped.
        figures: of the network that was ranked.
        cause: whether it is this one is asked, and which of its faults; without it, which fault
            of all it is.
    """
    open_to = list(_open(ranking, evidence))
    if not open_to:
        return None
    by_fault = _by_fault(ranking) if cause is None else _one_against_the_rest(ranking, cause)
    likely = by_fault.sum(axis=1) > _UNLIKELY
    chances = np.array([trial.chances[:, :-1] for trial in open_to])
    bits = _information(chances[:, :, likely], by_fault[likely])
    minutes = np.array([trial.minutes for trial in open_to])
    worth = np.where(bits >= figures["worth_bits"], bits / minutes, 0.0)
    best = int(worth.argmax())
    return open_to[best] if worth[best] > 0 else None


def expected_outcome(ranking: Ranking, trial: Trial, cause: Cause) -> str:
    """Say what of a trial's outcomes confirms the likeliest fault of a cause."""
    of_fault = ranking.fault_of == ranking.faults.index(cause.fault)
    chances = trial.chances[:, :-1][:, of_fault] @ ranking.weights[of_fault]
    return trial.outcomes[int(chances[: len(trial.outcomes)].argmax())]


def _open(ranking: Ranking, evidence: Evidence) -> Iterator[Trial]:
    """The trials that may be done and were not."""
    looked_at = {
        (circuit, housing)
        for setting, housings, _ in evidence.sightings
        if len(setting.on) == 1 and len(housings) == 1
        for circuit in setting.on
        for housing in housings
    }
    off = evidence.isolated | _may_be_shorted(ranking, evidence)
    for trial in ranking.trials:
        done = trial.id in evidence.results or (
            (trial.circuit, trial.housing) in looked_at
            if trial.what == "look"
            else trial.what == "breaker" and evidence.tripped is not None
        )
        if not done and allowed(trial, off):
            yield trial


def _may_be_shorted(ranking: Ranking, evidence: Evidence) -> frozenset[str]:
    """Circuits that are likely enough shorted to be left off until their breaker was looked at."""
    if evidence.tripped is not None:
        return frozenset()
    share = np.bincount(ranking.fault_of, weights=ranking.weights)
    return frozenset(
        fault.place
        for fault, likely in zip(ranking.faults, share, strict=True)
        if fault.kind == "shorted"
        and likely > LIKELY_ENOUGH
        and f"breaker:{fault.place}" not in evidence.results
    )


def _one_against_the_rest(ranking: Ranking, cause: Cause) -> Floats:
    """The faults of a cause one by one, all others as one, both halves alike in weight.

    The others count by how often they happen at all, so that what confirms a cause does so whatever
    else there might be.
    """
    inside = [ranking.faults.index(fault) for fault in (cause.fault, *cause.same_look)]
    of_cause = _by_fault(ranking)[:, inside]
    rest = np.where(np.isin(ranking.fault_of, inside), 0.0, ranking.before)[:, None]
    return np.hstack([half / max(half.sum(), _NOTHING) / 2 for half in (of_cause, rest)])


def _by_fault(ranking: Ranking) -> Floats:
    """The weight of each variant in each fault, [variant, fault]."""
    by_fault = np.zeros((len(ranking.weights), len(ranking.faults)))
    by_fault[np.arange(len(ranking.weights)), ranking.fault_of] = ranking.weights
    return by_fault


def _information(chances: Floats, by_group: Floats) -> Floats:
    """Bits between outcome and group, [trial].

    Args:
        chances: of each outcome with each variant, [trial, outcome, variant].
        by_group: the weight of each variant in each group, [variant, group].
    """
    joint = chances @ by_group
    outcome = joint.sum(axis=2, keepdims=True)
    group = joint.sum(axis=1, keepdims=True)
    both = np.maximum(joint, _NOTHING)
    ratio = both / np.maximum(outcome * group, _NOTHING)
    return np.asarray((joint * np.log2(ratio)).sum(axis=(1, 2)))
