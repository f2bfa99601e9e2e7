"""One figure of a table changed by one step, one at a time: the tests that are typed apart notice.

Printed are how many of how many were noticed, and each that was not.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from support.data_mutants import data_files, mutants_of
from support.mutants import Trial

pytestmark = pytest.mark.soak

MOST = 150
"""Figures of each file; of a file with more a sample is drawn."""
LEAST_NOTICED = 0.98
_LAMPS = ("tests/standards/test_lamps_393_11.py", "tests/standards/test_lamps_un_r48.py")
_AIR = tuple(f"tests/standards/test_{what}_limits.py" for what in ("published", "air", "hold"))
TESTS = {
    "lamps": _LAMPS,
    "connectors": ("tests/standards/test_connectors.py",),
    "pushrod_stroke_limits": ("tests/standards/test_stroke_limits.py",),
}
"""What would notice a figure of a file whose name begins so; of others the tests of air limits."""


@pytest.mark.parametrize("name", data_files())
def test_a_changed_figure_is_noticed(name: str, tmp_path: Path) -> None:
    every = [*mutants_of(name)]
    drawn = Random(12).sample(every, min(MOST, len(every)))
    tests = next((tests for stem, tests in TESTS.items() if name.startswith(stem)), _AIR)
    trial = Trial(tmp_path, tests)
    unnoticed = [mutant for mutant in drawn if not trial.is_killed(mutant)]
    noticed = len(drawn) - len(unnoticed)
    print(f"\n{name}: {noticed} of {len(drawn)} changed figures noticed, {len(every)} in the file")
    print(*unnoticed, sep="\n")
    assert noticed >= LEAST_NOTICED * len(drawn)
