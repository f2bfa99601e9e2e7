"""A thousand writers, each killed at a random moment: nothing told to be saved is lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.killing import killer

pytestmark = pytest.mark.soak

KILLS = 1000
SEED = 1000


def test_a_thousand_kills_lose_nothing(tmp_path: Path) -> None:
    with killer(tmp_path, SEED) as at_random:
        while at_random.toll.kills < KILLS:
            at_random.kill_one()
        at_random.look_at_all()
    toll = at_random.toll
    print(f"\n{toll}")
    assert toll.told > 3 * KILLS
    assert (toll.lost, toll.doubled, toll.damaged, toll.aside) == (0, 0, 0, 0)
