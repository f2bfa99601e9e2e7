"""Likely causes, ranked: how well each fault explains what is known, and its prior.

The likelihood of a variant is the product of its chances of everything known. A fault weighs what
its variants weigh together; one that explains nothing of what is odd weighs little: somebody would
have erred, and missed the fault besides. Faults that explain alike are one cause.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Numbers = NDArray[np.intp]

AGREES = 0.3
"""A fault that has at least this chance of what was seen explains it."""
LEAST_SHARE = 0.001
LISTED_ANYWAY = 3
"""This many causes are listed even if their share is less."""

Fault = TypeVar("Fault")
Trial = TypeVar("Trial")


class Cause(NamedTuple, Generic[Fault]):
    """A fault that may be the cause, and those that explain what was seen just as it does.

    Attributes:
        share: of all that is listed; the shares of a ranking sum to 1.
        same_look: the other faults, the likeliest first.
        explains: something of what is odd; a fault that does not is one that nobody would have
            noticed, beside an error of who looked.
    """

    fault: Fault
    share: float
    same_look: tuple[Fault, ...]
    explains: bool


class Ranking(NamedTuple, Generic[Fault, Trial]):
    """The likely causes, the likeliest first.

    Attributes:
        nothing_odd: all that is known is what a vehicle without a fault shows; the causes are then
            faults that would not have shown in it.
        before: the weight of each variant before anything was known.
        weights: of each variant, as shares.
        fault_of: the place of each variant's fault in `faults`.
        trials: everything that can be done to tell the faults apart.
    """

    causes: tuple[Cause[Fault], ...]
    nothing_odd: bool
    faults: tuple[Fault, ...]
    before: Floats
    weights: Floats
    fault_of: Numbers
    trials: tuple[Trial, ...]


def ranking_of(
    fault_of_variant: Sequence[Fault],
    before: Floats,
    chances: Floats,
    looks: Numbers,
    explains_nothing: float,
    trials: tuple[Trial, ...],
) -> Ranking[Fault, Trial]:
    """Rank faults by the chances that their variants have of everything known.

    Args:
        fault_of_variant: the fault of each variant.
        before: the weight of each variant before anything was known.
        chances: [thing known, variant and at last no fault]; none is 0.
        looks: what each variant says of each thing known, [thing known, variant]; faults whose
            likeliest variants say the same are one cause.
        explains_nothing: what a variant that explains nothing of what is odd counts.
        trials: everything that can be done to tell the faults apart.
    """
    faults = tuple(dict.fromkeys(fault_of_variant))
    place = {fault: at for at, fault in enumerate(faults)}
    fault_of = np.array([place[fault] for fault in fault_of_variant], dtype=np.intp)
    agrees = chances >= AGREES
    contradicts = ~agrees[:, -1]
    idle = np.asarray(contradicts.any() & ~agrees[contradicts, :-1].any(axis=0))
    ln = np.log(before * np.where(idle, explains_nothing, 1.0))
    ln += np.log(chances[:, :-1]).sum(axis=0)
    weights = np.exp(ln - ln.max())
    weights /= weights.sum()
    return Ranking(
        causes=_causes(faults, weights, fault_of, looks, idle),
        nothing_odd=not contradicts.any(),
        faults=faults,
        before=before,
        weights=weights,
        fault_of=fault_of,
        trials=trials,
    )


def _causes(
    faults: Sequence[Fault], weights: Floats, fault_of: Numbers, looks: Numbers, idle: Flags
) -> tuple[Cause[Fault], ...]:
    """Group faults with one look, as each looks in the variant that explains most."""
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
            float(total[[first, *same_look]].sum() / whole),
            tuple(faults[other] for other in same_look),
            first in explaining,
        )
        for first, *same_look in listed
    )
