"""Cooling air told from a leak, on readings without error; with errors in test_verdict.py.

1 C of cooling at 100 psi gauge takes 0.39 psi (Gay-Lussac, absolute pressure).
"""

from __future__ import annotations

import numpy as np
import pytest
from support.airholds import Reservoir

from walkaround.airhold.cooling import MOST_COOLING_PSI, TIMES_S, is_cooling, leak_is_plain
from walkaround.airhold.fit import Fall, fall_of

LOOKS_S = (0.0, 30.0, 60.0, 75.0, 90.0, 105.0, 120.0)


def seen(rate: float, cooling_psi: float = 0.0, cooling_s: float = 30.0) -> Fall:
    air = Reservoir(60.0, 110.0, 0.0, cooling_psi, cooling_s).leaking(rate, 120.0)
    return fall_of([(at_s, air.psi_at(at_s)) for at_s in LOOKS_S], 1.0, 0.25)


@pytest.mark.parametrize("rate", [0.0, 1.0, 2.0])
@pytest.mark.parametrize("cooling_s", [*TIMES_S, 25.0, 35.0])
def test_an_early_steep_part_that_flattens_is_cooling(rate: float, cooling_s: float) -> None:
    fall = seen(rate, 6.0, cooling_s)
    assert is_cooling(fall, 2.0)
    assert not leak_is_plain(fall, 2.0)


@pytest.mark.parametrize("rate", [2.5, 3.0, 6.0, 15.0, 40.0])
def test_an_even_fall_is_a_leak(rate: float) -> None:
    fall = seen(rate)
    assert leak_is_plain(fall, 2.0)
    assert not is_cooling(fall, 2.0)


def test_more_cooling_than_air_can_do_is_a_leak() -> None:
    """30 psi would be 77 C."""
    assert leak_is_plain(seen(2.0, 2.5 * MOST_COOLING_PSI), 2.0)


def test_a_leak_over_the_limit_is_found_behind_cooling_air() -> None:
    assert leak_is_plain(seen(12.0, 3.0), 2.0)


def test_two_readings_cannot_tell_cooling_of_six_psi_from_a_leak() -> None:
    fall = fall_of([(0.0, 110.0), (60.0, 102.8)], 1.0, 0.25)
    assert not leak_is_plain(fall, 2.0)
    assert not is_cooling(fall, 2.0)


@pytest.mark.parametrize(("gain", "called"), [(7.7, False), (8.7, True)])
def test_cooling_is_called_where_it_misses_eight_less_in_chi_square(
    gain: float, called: bool
) -> None:
    """What a line (numpy) leaves of a curve that is told without error is what it misses."""
    seconds = np.array(LOOKS_S)
    curve = 1 - (1 + seconds / 90) ** -3
    left = curve - np.polyval(np.polyfit(seconds, curve, 1), seconds)
    variance = 1 / 12 + 0.25**2
    amount = np.sqrt(gain * variance / (left @ left))
    fall = fall_of(
        [*zip(LOOKS_S, (110 - seconds / 60 - amount * curve).tolist(), strict=True)], 1.0, 0.25
    )
    assert is_cooling(fall, 2.0) == called
