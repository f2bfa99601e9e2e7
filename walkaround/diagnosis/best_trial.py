"""Which thing to do tells most for its minutes: what is expected to narrow the list of causes.

How much it narrows is the information, in bits, between what comes out of it and which fault it
is, over all that is still likely. One that tells less than is worth the way is not asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import Any, Protocol, TypeVar

import numpy as np

from walkaround.diagnosis.ranking import Cause, Floats, Ranking

_UNLIKELY = 1e-5
"""Variants with a smaller share do not count."""
_NOTHING = 1e-300


class TrialOption(Protocol):
    """A thing to do.

    `chances` are of each outcome with each variant, [outcome, variant and at last no fault]; rows
    beyond its outcomes are 0.
    """

    @property
    def minutes(self) -> float:
        """What it takes, with getting there."""

    @property
    def chances(self) -> Floats:
        """Of each outcome with each variant."""

    @property
    def outcomes(self) -> tuple[str, ...]:
        """What can come out of it."""


Trial = TypeVar("Trial", bound=TrialOption)


def best_trial(
    ranking: Ranking[Any, Any],
    open_to: Sequence[Trial],
    worth_bits: float,
    cause: Cause[Any] | None = None,
    mended: Callable[[Any], Hashable] = lambda fault: fault,
) -> Trial | None:
    """Choose what to do next; None where nothing tells enough.

    Args:
        ranking: by what is known.
        open_to: what may be done, all with as many rows of chances.
        worth_bits: what tells less is not asked for.
        cause: whether it is this one is asked, and which of its faults; without it, which fault
            of all it is.
        mended: what has to be mended for a fault; those mended alike are not told apart.
    """
    if not open_to:
        return None
    if cause is None:
        by_fault = _by_fault(ranking, mended)
    else:
        by_fault = _one_against_the_rest(ranking, cause)
    likely = by_fault.sum(axis=1) > _UNLIKELY
    chances = np.array([trial.chances[:, :-1] for trial in open_to])
    bits = _information(chances[:, :, likely], by_fault[likely])
    minutes = np.array([trial.minutes for trial in open_to])
    worth = np.where(bits >= worth_bits, bits / minutes, 0.0)
    best = int(worth.argmax())
    return open_to[best] if worth[best] > 0 else None


def expected_outcome(ranking: Ranking[Any, Any], trial: TrialOption, cause: Cause[Any]) -> str:
    """Say what of a trial's outcomes confirms the likeliest fault of a cause."""
    of_fault = ranking.fault_of == ranking.faults.index(cause.fault)
    chances = trial.chances[:, :-1][:, of_fault] @ ranking.weights[of_fault]
    return trial.outcomes[int(chances[: len(trial.outcomes)].argmax())]


def _one_against_the_rest(ranking: Ranking[Any, Any], cause: Cause[Any]) -> Floats:
    """Weigh a cause's faults one by one against all others as one, half each.

    The others count by how often they happen at all, so that what confirms a cause does so whatever
    else there might be.
    """
    inside = [ranking.faults.index(fault) for fault in (cause.fault, *cause.same_look)]
    of_cause = _by_fault(ranking)[:, inside]
    other_weights = np.where(np.isin(ranking.fault_of, inside), 0.0, ranking.before)[:, None]
    return np.hstack([half / max(half.sum(), _NOTHING) / 2 for half in (of_cause, other_weights)])


def _by_fault(
    ranking: Ranking[Any, Any], mended: Callable[[Any], Hashable] = lambda fault: fault
) -> Floats:
    """Return each variant's weight in each fault, or in those mended alike, [variant, fault]."""
    places: dict[Hashable, int] = {}
    group = [places.setdefault(mended(fault), len(places)) for fault in ranking.faults]
    by_fault = np.zeros((len(ranking.weights), len(places)))
    by_fault[np.arange(len(ranking.weights)), np.array(group)[ranking.fault_of]] = ranking.weights
    return by_fault


def _information(chances: Floats, by_group: Floats) -> Floats:
    """Return the bits between outcome and group, [trial].

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
