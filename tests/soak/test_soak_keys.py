"""Every shipped vehicle walked by a pedal, by each source of power, circuits apart and together."""

from __future__ import annotations

import asyncio
from itertools import product
from pathlib import Path
from random import Random

import pytest
from support.app import app
from support.keywalks import Tally, pedal_kept, walked_by_keys

from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.ui.page.device import Device

pytestmark = pytest.mark.soak


async def _all_walked(data: Path, seed: int) -> list[Tally]:
    chance, tallies = Random(seed), list[Tally]()
    async with app(data) as depot:
        library = depot.parts.library
        for vehicle, together in product(library.vehicles, (False, True)):
            for power in powers_for(vehicle, library.rules.power_sources):
                plan = plan_walk(vehicle, library.rules, power=power, together=together)
                walk_id = depot.parts.open_walks.begin(plan, "Kim")
                tallies.append(await walked_by_keys(depot, walk_id, chance))
    return tallies


def test_every_vehicle_is_walked_by_a_pedal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Device, "_text_kept", pedal_kept)
    seed = Random().getrandbits(32)
    try:
        tallies = asyncio.run(_all_walked(tmp_path, seed))
    except Exception as error:
        error.add_note(f"seed {seed}")
        raise
    keys, taps, defects = (
        sum(getattr(tally, name) for tally in tallies) for name in ("by_key", "by_tap", "defects")
    )
    print(
        f"\n{len(tallies)} walks: {keys} steps answered by keys, {defects} of them defects, "
        f"{taps} by taps; none twice, none that takes a tap"
    )
