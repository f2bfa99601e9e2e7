"""How often an air hold is judged wrong and how long it takes, on a simulated truth.

Beside each row stands the plain rule on the same holds: two readings, 0 and 60 s.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import partial

import pytest
from benchmarks.conftest import Rounds
from support.airholds import Case, Holds

SEED = 393
FEW = 100
DISTANCES = (-1.0, -0.5, -0.25, 0.25, 0.5, 1.0, 2.0)
LEAKS = (0.0, 0.5, 0.9, 1.0)
"""Of air that cools besides: shares of the limit."""


def simulated(cases: Iterable[Case], count: int) -> Iterator[Holds]:
    """Holds of each case, on every core where there are many."""
    if count < FEW:
        yield from (case.holds(count=count, seed=SEED) for case in cases)
        return
    with ProcessPoolExecutor(mp_context=multiprocessing.get_context("spawn")) as pool:
        yield from pool.map(partial(Case.holds, count=count, seed=SEED), cases)


def row(holds: Holds) -> str:
    case = holds.case
    start = "mark" if case.on_mark else "any"
    shares = (f"{holds.share(word):7.2%}" for word in ("within", "over", "settling", "undecided"))
    rule = "" if case.crossing else f"  rule wrong {holds.rule_wrong_share:6.1%}"
    return (
        f"  {case.limit:g} {case.rate - case.limit:+6.2f}  {start:4}  {'  '.join(shares)}"
        f"  {holds.mean_s:4.0f} s  bounds right {holds.covered:6.1%}{rule}"
    )


def distances(*, step_psi: float, crossing: bool = False) -> list[Case]:
    return [
        Case(limit, limit + far, step_psi=step_psi, on_mark=on_mark, crossing=crossing)
        for limit in (2.0, 3.0)
        for far in DISTANCES
        for on_mark in (False, True)
    ]


HEAD = "limit, true rate from it, start; within, over, settling, undecided; mean hold"


def test_on_a_gauge_read_to_1_psi(rounds: Rounds) -> None:
    count = rounds(3000, 2)
    print(f"\n1 psi gauge, {count} holds a row: {HEAD}")
    far_wrong = []
    for holds in simulated(distances(step_psi=1.0), count):
        print(row(holds))
        far_wrong.append(holds.share(holds.wrong))
    print(f"  most wrong verdicts in a row {max(far_wrong):.2%}")


@pytest.mark.parametrize(
    ("step_psi", "crossing"),
    [(2.0, False), (5.0, False), (1.0, True), (2.0, True), (5.0, True), (10.0, True)],
)
def test_on_coarser_gauges_and_by_marks_crossed(
    step_psi: float, crossing: bool, rounds: Rounds
) -> None:
    count = rounds(500, 1)
    way = "marks crossed" if crossing else "readings"
    print(f"\n{step_psi:g} psi gauge, {way}, {count} holds a row: {HEAD}")
    for holds in simulated(distances(step_psi=step_psi, crossing=crossing), count):
        print(row(holds))


@pytest.mark.parametrize(
    ("psi", "seconds"), [(6, 30), (1, 30), (2, 30), (3, 30), (4, 30), (10, 30), (6, 15), (6, 60)]
)
def test_while_the_air_is_still_cooling(psi: float, seconds: float, rounds: Rounds) -> None:
    count = rounds(3000 if (psi, seconds) == (6, 30) else 500, 1)
    print(f"\n1 psi gauge, cooling {psi:g} psi in {seconds:g} s, {count} holds a row: {HEAD}")
    cases = [
        Case(limit, limit * share, on_mark=on_mark, cooling_psi=psi, cooling_s=seconds)
        for limit in (2.0, 3.0)
        for share in LEAKS
        for on_mark in (False, True)
    ]
    for holds in simulated(cases, count):
        print(row(holds))
