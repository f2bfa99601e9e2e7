"""The next thing to do: what is expected to narrow the list of causes most for its minutes.

Nothing is done twice. Here is what may be done at all; what of it tells most is `diagnosis`'s.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from walkaround.causes.faults import LampFault, mended_alike
from walkaround.causes.figures import LampFigures
from walkaround.causes.ranking import LampEvidence
from walkaround.causes.trials import LampTrial, is_allowed
from walkaround.diagnosis.best_trial import best_trial
from walkaround.diagnosis.ranking import Cause, Ranking

LIKELY_ENOUGH = 0.02
"""A circuit more likely shorted than this is not fed before its breaker was looked at."""


def next_thing(
    ranking: Ranking[LampFault, LampTrial],
    evidence: LampEvidence,
    figures: LampFigures,
    cause: Cause[LampFault] | None = None,
) -> LampTrial | None:
    """Choose what to do next; None where nothing that may be done tells enough.

    Args:
        ranking: by this evidence.
        evidence: what is known; nothing is done twice, and no circuit is fed that has tripped.
        figures: of the network that was ranked.
        cause: whether it is this one is asked, and which of its faults; without it, which fault
            of all it is.
    """
    open_to = list(_open(ranking, evidence))
    if cause:
        # What is measured elsewhere, or only looked at once more, proves nothing to anybody.
        open_to = [trial for trial in open_to if _is_there(trial, cause.fault)]
    return best_trial(ranking, open_to, figures["worth_bits"], cause, mended_alike)


def next_look(
    ranking: Ranking[LampFault, LampTrial], evidence: LampEvidence, figures: LampFigures
) -> LampTrial | None:
    """Choose the look at one lamp, with one circuit on, that tells most; None if none tells much.

    Args:
        ranking, evidence, figures: as for the next thing.
    """
    looks = [trial for trial in _open(ranking, evidence) if trial.what == "look"]
    return best_trial(ranking, looks, figures["worth_asking_bits"], mended=mended_alike)


def _is_there(trial: LampTrial, fault: LampFault) -> bool:
    """Tell whether a trial at the place of a fault tells more than a look."""
    if trial.what == "look":
        return False
    head, at, cluster = fault.place.partition("@")
    housing, colon, circuit = fault.place.partition(":")
    if colon:
        return trial.circuit == circuit and trial.housing in ("", housing)
    if at:
        return cluster == trial.cluster or trial.circuit == head
    if mended_alike(fault)[0] == "ground":
        return trial.cluster == fault.place
    return not fault.place or not trial.circuit or trial.circuit in fault.place.split("+")


def _open(ranking: Ranking[LampFault, LampTrial], evidence: LampEvidence) -> Iterator[LampTrial]:
    """List the trials that may be done and were not."""
    looked_at = {
        (circuit, housing)
        for setting, housings, _ in evidence.sightings
        if len(setting.on) == 1 and len(housings) == 1
        for circuit in setting.on
        for housing in housings
    }
    off = evidence.isolated | _may_be_shorted(ranking, evidence)
    for trial in ranking.trials:
        is_done = trial.id in evidence.results or (
            (trial.circuit, trial.housing) in looked_at
            if trial.what == "look"
            else trial.what == "breaker" and evidence.tripped is not None
        )
        if not is_done and is_allowed(trial, off):
            yield trial


def _may_be_shorted(
    ranking: Ranking[LampFault, LampTrial], evidence: LampEvidence
) -> frozenset[str]:
    """Return circuits likely enough shorted to stay off until their breaker was looked at."""
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
