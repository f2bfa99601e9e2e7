"""The chambers of an axle are read off, and the limit that then counts is shown and said.

Limits are those of 49 CFR 393.47(e): clamp chambers of type 24 have 1 3/4 in, long-stroke ones 2 in
or, with a rated stroke of 3 in, 2 1/2 in; of type 30 they have 2 in, long-stroke ones 2 1/2 in.
"""

from __future__ import annotations

from typing import Any

import pytest
from support.app import App
from support.chambers import BOLT, CHAMBERS, SLACKS, chamber_plan
from support.flet_harness import Screen

from walkaround.ui.kit.theme import SMALL_TOUCH
from walkaround.vehicle.model import Axle
from walkaround.walk.events import ChamberTold
from walkaround.walk.state import Walk

FILED = "Limit 2 in, as filed"


def begin(depot: App, **more: Any) -> str:
    return depot.parts.open_walks.begin(chamber_plan(**more), "Kim")


def walk_of(depot: App, walk_id: str) -> Walk:
    return depot.parts.open_walks.walk(walk_id)


async def tap(depot: App, screen: Screen, walk_id: str, *keys: str) -> None:
    """Tap one key after another, the last of which saves something."""
    before = len(walk_of(depot, walk_id).events)
    for key in keys:
        await screen.until(lambda key=key: screen.has(key))
        await screen.click(key)
    await screen.until(lambda: len(walk_of(depot, walk_id).events) > before)
    await screen.settle()


async def test_one_tap_says_that_both_are_as_filed_and_marked(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "Left: clamp 30, standard" in screen.texts()
        assert screen.texts().count(FILED) == 2
        await tap(depot, screen, walk_id, "ok")
    walk = walk_of(depot, walk_id)
    assert walk.answers["chambers_1"].answer == "ok"
    assert not any(isinstance(event, ChamberTold) for event in walk.events)


@pytest.mark.parametrize(
    ("keys", "told", "tile", "limit", "said"),
    [
        (
            ("size_24", "long_no"),
            ("clamp", "24", False, None),
            "Left: clamp 24, standard",
            "Limit 1 3/4 in, read off it",
            "Left: clamp 24, standard. Limit 1 3/4 in.",
        ),
        (
            ("size_24", "long_yes", "rated_3"),
            ("clamp", "24", True, 3.0),
            "Left: clamp 24, long stroke 3 in",
            "Limit 2 1/2 in, read off it",
            "Left: clamp 24, long stroke 3 in. Limit 2 1/2 in.",
        ),
        (
            ("size_24", "long_yes", "rated_none"),
            ("clamp", "24", True, None),
            "Left: clamp 24, long stroke",
            "Limit 2 in, read off it",
            "Left: clamp 24, long stroke. Limit 2 in.",
        ),
        (
            ("size_30", "long_yes"),
            ("clamp", "30", True, None),
            "Left: clamp 30, long stroke",
            "Limit 2 1/2 in, read off it",
            "Left: clamp 30, long stroke. Limit 2 1/2 in.",
        ),
        (
            ("size_30", "long_doubt"),
            ("clamp", "30", None, None),
            "Left: clamp 30, can't tell if long",
            "Limit 2 in, standard: can't tell if long",
            "Left: clamp 30, can't tell if long. Limit 2 in.",
        ),
        # Only a standard one is listed, so nobody is asked.
        (
            ("size_36",),
            ("clamp", "36", False, None),
            "Left: clamp 36",
            "Limit 2 1/2 in, read off it",
            "Left: clamp 36. Limit 2 1/2 in.",
        ),
        (
            ("unread",),
            ("clamp", "", None, None),
            "Left: size not read",
            "No limit known: the stroke is written down",
            "Left: size not read. No limit known.",
        ),
        (
            ("other_kind",),
            ("other", "", False, None),
            "Left: another kind",
            "No limit known: the stroke is written down",
            "Left: another kind. No limit known.",
        ),
    ],
)
async def test_a_chamber_read_off_tells_its_limit_by_the_table(
    depot: App,
    keys: tuple[str, ...],
    told: tuple[str, str, bool | None, float | None],
    tile: str,
    limit: str,
    said: str,
) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "axle_1_left", *keys)
        assert tile in screen.texts()
        assert limit in screen.texts()
        assert depot.voice.said[-1] == said
        event = walk_of(depot, walk_id).chambers["axle_1_left"]
        assert (event.actuator, event.type, event.long_stroke, event.rated_stroke_in) == told


async def test_ends_that_do_not_match_leave_nothing_but_a_defect(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "axle_1_left", "size_24", "long_no")
        assert screen.has("unlike")
        assert "393.47(b)" in screen.text
        assert not screen.has("ok")
        await screen.click("defect")
        await screen.click("item_axle_1_left")
        await screen.click("seen_differs")
        await tap(depot, screen, walk_id, "record_fault")
        assert walk_of(depot, walk_id).answers["chambers_1"].answer == "defect"
        await screen.click("defects")
        assert any("type 24" in text and "type 30" in text for text in screen.texts())


async def test_an_end_that_was_not_read_whole_asks_for_it_before_an_ok(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "axle_1_left", "unread")
        assert any("not read whole" in text for text in screen.texts())
        assert not any("393.47(b)" in text for text in screen.texts())
        assert not screen.has("ok")


async def test_a_rated_stroke_that_no_row_asks_for_makes_no_ends_unlike(depot: App) -> None:
    filed = Axle(actuator="clamp", type="30", long_stroke=True, rated_stroke_in=3.0)
    walk_id = begin(depot, axle=filed)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "Left: clamp 30, long stroke 3 in" in screen.texts()
        await tap(depot, screen, walk_id, "axle_1_left", "size_30", "long_yes")
        assert not screen.has("unlike")
        assert screen.has("ok")


async def test_both_ends_read_the_same_are_well(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        for side in ("left", "right"):
            await tap(depot, screen, walk_id, f"axle_1_{side}", "size_24", "long_no")
        assert not screen.has("unlike")
        await tap(depot, screen, walk_id, "ok")
        # 1 3/4 in count now, and not the 2 in of the file.
        assert any("1 3/4 in" in text for text in screen.texts())


async def test_rows_are_listed_without_numbers_and_named_as_defects(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "• slack adjusters differ" in screen.texts()
        assert not any("1  axle 1" in text for text in screen.texts())
        assert not screen.has("other")
        await screen.click("defect")
        await screen.click(f"item_{BOLT}")
        await screen.click("seen_loose")
        await tap(depot, screen, walk_id, "record_fault")
    seen = walk_of(depot, walk_id).answers["chambers_1"].seen
    assert seen == {BOLT: "loose"}
    assert SLACKS not in seen


async def test_what_is_half_chosen_is_there_again_after_a_reload(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("axle_1_right")
        await cut.click("size_24")
        await cut.click("long_yes")
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        await tap(depot, screen, walk_id, "rated_3")
        assert walk_of(depot, walk_id).chambers["axle_1_right"].rated_stroke_in == 3.0
        assert screen.has("defect")


async def test_each_question_leads_back_to_the_one_before(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        for key in ("axle_1_left", "size_24", "long_yes"):
            await screen.click(key)
        for key in ("long_yes", "size_24", "ok"):
            await screen.click("coarse")
            assert screen.has(key)
    assert walk_of(depot, walk_id).chambers == {}


async def test_every_target_is_large_enough_for_a_glove(depot: App) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        seen = ["axle_1_left", "axle_1_right"]
        for keys in (
            ("axle_1_left", "size_24", "size_36", "unread", "other_kind", "coarse"),
            ("size_24", "long_yes", "long_no", "long_doubt"),
            ("long_yes", "rated_3", "rated_none"),
        ):
            await screen.click(keys[0])
            seen += keys[1:]
            for key in keys[1:]:
                target: Any = screen.target(key)
                assert target.height >= SMALL_TOUCH
        assert len(seen) == len(set(seen))


async def test_two_fast_taps_choose_one_thing(patient: App) -> None:
    walk_id = begin(patient)
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        await screen.click("axle_1_left")
        await screen.click("size_24")
        assert screen.has("size_36")
        patient.clock.wait(1)
        await screen.click("size_36")
        await screen.until(lambda: bool(walk_of(patient, walk_id).chambers))


async def test_another_phones_reading_is_not_written_over_by_a_tap_that_comes_late(
    depot: App,
) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("axle_1_left")
        late = screen.target("size_36")
        body = {"step": "chambers_1", "end": "axle_1_left", "actuator": "clamp", "type": "30"}
        depot.parts.open_walks.do(walk_id, "Ana", (ChamberTold, {**body, "long_stroke": True}))
        await screen.tap(late)
        assert walk_of(depot, walk_id).chambers["axle_1_left"].type == "30"


async def test_looked_back_at_they_are_read_again_only_until_a_stroke_is_answered(
    depot: App,
) -> None:
    walk_id = begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.click("back")
        await screen.click("axle_1_left")
        assert not screen.has("size_24")
        await tap(depot, screen, walk_id, "reopen")
        await tap(depot, screen, walk_id, "ok")
        await tap(depot, screen, walk_id, "key_1", "key_1.5")
        await tap(depot, screen, walk_id, "ok")
        await screen.click("back")
        await screen.click("back")
        assert "Looking back: Axle 1: mark rods, check chambers" in screen.texts()
        assert not screen.has("reopen")


async def test_a_file_without_sizes_has_them_read(depot: App) -> None:
    walk_id = begin(depot, axle=Axle(actuator="clamp"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "Left: size not in the file" in screen.texts()
        await screen.click("axle_1_left")
        assert screen.has("size_30")


async def test_a_bolt_chamber_is_told_by_its_letter(depot: App) -> None:
    walk_id = begin(depot, axle=Axle(actuator="bolt", type="B"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "Left: bolt B" in screen.texts()
        await screen.click("axle_1_left")
        assert screen.has("size_B")
        assert not screen.has("size_30")


async def test_limits_are_in_the_readers_units(depot: App) -> None:
    settings = depot.parts.settings().model_copy(update={"length": "mm"})
    depot.parts.store.change_settings(settings.model_dump(mode="json"))
    walk_id = begin(depot, first=CHAMBERS)
    async with depot.page(f"/walk/{walk_id}") as screen:
        # 2 in are 50.8 mm.
        assert "Limit 50.8 mm, as filed" in screen.texts()
