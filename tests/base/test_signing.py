"""Strokes are thinned to what may be kept, and look the same."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial.distance import directed_hausdorff

from walkaround.base.signing import HIGH, MOST_POINTS, WIDE, thin_points, within_field

PLACES = st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))


@given(st.lists(PLACES, min_size=1, max_size=200))
def test_any_stroke_becomes_one_that_may_be_kept(places: list[tuple[float, float]]) -> None:
    kept = thin_points([within_field(*place) for place in places])
    assert len(kept) == min(len(places), MOST_POINTS)
    assert (kept[0], kept[-1]) == (within_field(*places[0]), within_field(*places[-1]))
    assert all(0 <= x <= WIDE and 0 <= y <= HIGH for x, y in kept)


def test_a_thinned_loop_lies_on_the_drawn_one_by_scipy() -> None:
    turns = np.linspace(0, 2 * np.pi, 400)
    drawn = [within_field(500 + 300 * np.cos(a), 200 + 150 * np.sin(3 * a)) for a in turns]
    kept = np.array(thin_points(drawn), dtype=float)
    between = np.arange(0, len(kept) - 1, 0.05)
    line = np.column_stack([np.interp(between, np.arange(len(kept)), kept[:, n]) for n in (0, 1)])
    assert directed_hausdorff(np.array(drawn, dtype=float), line)[0] < 6
