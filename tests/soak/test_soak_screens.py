"""Three hundred stores of hostile but valid data: every screen is drawn from each, and hands it on.

What a stranger may write is drawn anew in each run; what fails is shown with the number that
makes it again.
"""

from __future__ import annotations

import asyncio
from pathlib import Path
from random import Random
from shutil import rmtree
from time import perf_counter

import pytest
from support.everyscreen import draw_every_screen

pytestmark = pytest.mark.soak

STORES = 300
FULL = 20
"""One store in so many has a long checklist, and is walked far."""


def test_every_screen_is_drawn_from_three_hundred_hostile_stores(tmp_path: Path) -> None:
    screens = steps = 0
    largest_kb = slowest_s = 0.0
    for number in range(STORES):
        seed, began_s = Random().getrandbits(32), perf_counter()
        count, far, looks = (25, 400, 14) if number % FULL == 0 else (12, 30, 4)
        data = tmp_path / f"{number}"
        drawn = draw_every_screen(data, seed, steps=count, most_steps=far, most_looks=looks)
        try:
            heard = asyncio.run(drawn)
        except Exception as error:
            error.add_note(f"seed {seed}, steps {count}, most_steps {far}, most_looks {looks}")
            raise
        rmtree(data)
        screens, steps = screens + heard.screens, steps + heard.steps
        largest_kb = max(largest_kb, heard.largest_kb)
        slowest_s = max(slowest_s, perf_counter() - began_s)
    print(
        f"\n{STORES} stores: {screens} screens drawn, {steps} steps answered, none failed; "
        f"largest message {largest_kb:.0f} kB, slowest store {slowest_s:.0f} s"
    )
