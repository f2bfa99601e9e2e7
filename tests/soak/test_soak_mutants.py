"""Small mistakes made in the core, one at a time: the tests of its packages notice most of them.

Printed are the share that was noticed and each mistake that was not. Some change nothing that can
be seen (a bound that is never reached, a figure that only saves time), and no line is drawn where
an estimate of our own is off by a tenth; the share leaves room for them. Left out is only what is
no behavior, or no mistake that anybody makes: `support/mutants.py` says what.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from support.mutants import Trial, draw

pytestmark = pytest.mark.soak

SAMPLE = 30
"""Mistakes in each package."""
SEED = 10
LEAST_KILLED = 0.85
TESTS = {
    "plan": ["tests/plan", "tests/standards/test_air_limits.py"],
    "rounds": ["tests/rounds", "tests/standards/test_rounds_sperner.py"],
    "lamps": [
        "tests/lamps",
        "tests/vehicle_editor/test_checks.py",
        "tests/standards/test_lamps_393_11.py",
        "tests/standards/test_lamps_un_r48.py",
        "tests/standards/test_connectors.py",
    ],
    "airhold": [
        "tests/airhold/test_verdict_by_hand.py",
        "tests/standards/test_hold_limits.py",
        "tests/standards/test_leak_fit.py",
        "tests/standards/test_cooling_air.py",
        "tests/airhold",
        "tests/standards/test_pressure_physics.py",
    ],
    "brakes": ["tests/brakes", "tests/standards/test_stroke_limits.py"],
    "walk": ["tests/walk", "tests/plan/test_known_gauges.py"],
}
"""What would notice a mistake in each package."""


@pytest.mark.parametrize("package", TESTS)
def test_most_mistakes_in_a_package_are_noticed_by_its_tests(package: str, tmp_path: Path) -> None:
    drawn = draw(package, SAMPLE, Random(SEED))
    trial = Trial(tmp_path, TESTS[package])
    unnoticed = [mutant for mutant in drawn if not trial.is_killed(mutant)]
    killed = len(drawn) - len(unnoticed)
    print(f"\n{package}: {killed} of {len(drawn)} mutants killed ({killed / len(drawn):.0%})")
    print(*unnoticed, sep="\n")
    assert killed >= LEAST_KILLED * len(drawn)
