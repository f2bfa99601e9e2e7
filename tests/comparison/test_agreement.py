"""Cohen's kappa against scikit-learn's, and against the paper that it is from."""

from __future__ import annotations

from math import isnan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score

from walkaround.comparison.agreement import agreement

# J. Cohen, Educational and Psychological Measurement 20 (1960), 37-46, the table of two judges who
# sort 100 cases into three kinds. The counts were read in the example of `cohen_k` in the R package
# lbagree, which repeats the paper's; the paper's kappa of .492 is from memory.
COHEN_1960 = ((44, 5, 1), (7, 20, 3), (9, 5, 6))


def test_kappa_is_that_of_the_example_in_the_paper() -> None:
    judged = [
        (f"kind {row}", f"kind {column}")
        for row, counts in enumerate(COHEN_1960)
        for column, count in enumerate(counts)
        for _ in range(count)
    ]
    counted = agreement(judged)
    assert (counted.things, counted.alike) == (100, 70)
    assert counted.kappa == pytest.approx(0.492, abs=0.0005)


_said = st.sampled_from(["ok", "dark", "dim", "not_checked"])


@given(st.lists(st.tuples(_said, _said), min_size=1, max_size=60))
def test_kappa_is_the_librarys(judged: list[tuple[str, str]]) -> None:
    firsts, seconds = zip(*judged, strict=True)
    known = {*firsts, *seconds}
    counted = agreement(judged)
    if len(known) == 1:
        # The library warns of this, and gives no number.
        assert counted.kappa is None
        return
    theirs = cohen_kappa_score(firsts, seconds)
    assert not isnan(theirs)
    assert counted.kappa == pytest.approx(theirs, abs=1e-12)


def test_of_nothing_there_is_no_kappa() -> None:
    assert agreement([]).kappa is None
