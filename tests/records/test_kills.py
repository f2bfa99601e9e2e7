"""A process killed at any moment loses nothing that it told to be saved, and gives way.

The long run is in `soak/test_soak_kills.py`.
"""

from __future__ import annotations

from pathlib import Path

from support.killing import killer

KILLS = 15
SEED = 5


def test_what_was_told_to_be_saved_outlives_a_kill_at_any_moment(tmp_path: Path) -> None:
    with killer(tmp_path, SEED) as at_random:
        while at_random.toll.kills < KILLS:
            at_random.kill_one()
        at_random.look_at_all()
    toll = at_random.toll
    print(toll)
    assert toll.told > 2 * KILLS
    assert (toll.lost, toll.doubled, toll.damaged, toll.aside) == (0, 0, 0, 0), toll
