"""A whole walk by a pedal of two keys: what it may answer once a press, and nothing else."""

from __future__ import annotations

from random import Random

import pytest
from support.app import App
from support.keywalks import pedal_kept, walked_by_keys

from walkaround.ui.page.device import Device


async def test_a_pedal_walks_the_lamps_and_leaves_the_rest_to_taps(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Device, "_text_kept", pedal_kept)
    walk_id = depot.begin("pump_trailer_3", scope="lamps", together=True)
    tally = await walked_by_keys(depot, walk_id, Random(1))
    walk = depot.parts.open_walks.walk(walk_id)
    assert tally.by_key == sum(step.hands_free for step in walk.steps) > 5
    assert tally.by_tap == len(walk.steps) - tally.by_key > 1
    assert tally.defects == len(walk.open_defects) > 0
