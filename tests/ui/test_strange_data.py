"""Every screen drawn from data that is hostile but valid, and what keeps such data in its place.

The long check is in tests/soak.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from pathlib import Path

import flet as ft
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from support.app import App, app
from support.everyscreen import draw_every_screen
from support.flet_harness import shown
from support.walks import plan, step

from walkaround.rules.limits import HoldRule, WaitRule
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.zones import choice
from walkaround.walk.events import Answered, HoldBegan

LONG = "W" * 300


@pytest.fixture
async def depot(tmp_path: Path) -> AsyncIterator[App]:
    async with app(tmp_path / "data") as opened:
        yield opened


@settings(
    max_examples=1, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck)
)
@given(seed=st.integers(0, 2**32))
async def test_every_screen_is_drawn_from_hostile_but_valid_data(
    seed: int, tmp_path_factory: pytest.TempPathFactory
) -> None:
    data = tmp_path_factory.mktemp("strange")
    heard = await draw_every_screen(data, seed, steps=8, most_steps=30, most_looks=6)
    assert heard.screens > 40


async def test_many_waits_leave_the_step_its_room_and_show_their_time(depot: App) -> None:
    """Of a checklist with forty waits the answers were off a small phone's screen."""
    waits = [
        step(
            f"wait_{number}",
            "leave",
            "wait",
            title=f"{number} {LONG}",
            wait=WaitRule(after="first", seconds=6000 - 60 * number),
        )
        for number in range(40)
    ]
    steps = (step("first", "secure", "act"), step("next", "secure", "act"), *waits)
    walk_id = depot.parts.open_walks.begin(plan(steps), "Kim")
    depot.parts.open_walks.do(walk_id, "Kim", (Answered, {"step": "first", "answer": "ok"}))
    async with depot.page(f"/walk/{walk_id}") as screen:
        strips = [text for text in screen.texts() if text.endswith(" min left")]
        soonest = [f"{number} WWWWWWWWWW…: {100 - number} min left" for number in (39, 38, 37)]
        assert strips == soonest


async def test_the_clock_of_an_air_hold_is_seen_whatever_its_title(depot: App) -> None:
    rule = HoldRule(
        set_psi={"supply": 110.0},
        limit_psi_per_min=2.0,
        limit_source="invented",
        limit_provenance="memory",
    )
    steps = (step("hold", "supply_hold", "hold", title=LONG, hold=rule),)
    walk_id = depot.parts.open_walks.begin(plan(steps), "Kim")
    depot.parts.open_walks.do(walk_id, "Kim", (HoldBegan, {"step": "hold"}))
    async with depot.page(f"/walk/{walk_id}") as screen:
        [title] = [text for text in screen.controls(ft.Text) if text.value == LONG]
        assert title.max_lines == 2


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        (["Everything", "Lamps", "Brakes"], [3]),
        (["Nothing", "One", "Two", "Three"], [4]),
        (["Box in hand", "The cab", "A helper", "The yard's own box"], [2, 2]),
        ([LONG] * 33, [1] * 33),
    ],
)
async def test_options_stand_in_as_many_rows_as_it_takes_to_read_them(
    words: list[str], rows: list[int]
) -> None:
    """Thirty power sources of one's own stood in one row, two letters of each to be seen."""
    options = [(f"{number}", word, lambda: None) for number, word in enumerate(words)]
    async with shown(lambda: choice(options, "0")) as screen:
        found = [row for row in screen.controls(ft.Row) if isinstance(row.controls[0], ft.Button)]
        assert [len(row.controls) for row in found] == rows
        # None of them is a ring without its word.
        assert [text.value for text in screen.controls(ft.Text)] == words


async def test_a_long_word_on_a_button_takes_no_more_room_than_there_is() -> None:
    async with shown(lambda: button(LONG, lambda: None, key="who")) as screen:
        [label] = screen.controls(ft.Text)
        assert (label.expand, label.expand_loose, label.max_lines) == (True, True, 2)
