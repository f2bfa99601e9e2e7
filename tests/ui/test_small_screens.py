"""On the smallest phone, on one that lies on its side, at twice the text: what matters first."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import flet as ft
import pytest
from support.app import App, app
from support.flet_harness import Screen
from support.shop import PUMP, fill
from support.walks import plan
from support.walks import step as made_step

from walkaround.drawing.plan_svg import PictureStyle, seen_lamps
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Practice, Step
from walkaround.practice.plan import practice_plan
from walkaround.ui.kit.scale import word_em
from walkaround.ui.kit.theme import SMALL
from walkaround.ui.kit.zones import radio_icon
from walkaround.walk.events import Answered, Finished, Signed

SEMITRAILER = "sandbag_semitrailer_7"
TAGGED = "20261120_081502_4f3a9c"
SMALL_PHONE, ON_ITS_SIDE = (360, 640), (915, 412)


async def wear(screen: Screen, size: tuple[int, int], scale: float = 1.0) -> None:
    """Make the page so large, and its text so much larger."""
    screen.page.width, screen.page.height = size
    [measure] = [text for text in screen.controls(ft.Text) if text.size == 100]
    await screen.fire(measure, "size_change", {"w": 1.0, "h": 100.0 * scale})
    await screen.fire(screen.page, "resize", dict(zip(("width", "height"), size, strict=True)))


def comes_before(screen: Screen, first: str, second: str) -> bool:
    """Whether what has the first key or words comes before what has the second, on the page."""
    order = [control._i for control in screen.controls()]
    return order.index(screen.find(first)._i) < order.index(screen.find(second)._i)


def scrolls(screen: Screen, key: str) -> bool:
    """Whether this is among what is scrolled."""
    control: Any = screen.find(key)
    while control := control.parent:
        if isinstance(control, ft.Column) and control.scroll:
            return True
    return False


def found_dark(depot: App) -> str:
    """A closed walk in which one lamp at the rear was dark."""
    walk_id, do = depot.begin(SEMITRAILER, scope="lamps"), depot.parts.open_walks.do
    for step in depot.parts.open_walks.walk(walk_id).steps:
        dark = step.id == "tail_rear"
        body: dict[str, object] = {"step": step.id, "answer": "defect" if dark else "ok"}
        body |= {"seen": {step.items[0].id: "dark"}} if dark else {}
        body |= {"choice": step.choices[0].id} if step.choices else {}
        do(walk_id, "Kim", (Answered, body))
    do(walk_id, "Kim", (Finished, {}))
    return walk_id


async def test_before_a_walk_what_is_still_open_comes_before_its_length_and_the_plan(
    depot: App,
) -> None:
    walk_id = found_dark(depot)
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        assert comes_before(screen, f"found_in_{walk_id}", "takes")
        assert comes_before(screen, "takes", "scope_lamps")
        assert not screen.has("tag")


async def test_before_a_walk_on_a_tagged_vehicle_the_tag_is_told_until_it_is_lifted(
    tmp_path: Path,
) -> None:
    fill(tmp_path)
    async with app(tmp_path) as shop:
        async with shop.page(f"/vehicle/{PUMP}") as screen:
            assert comes_before(screen, "tag", "start")
        async with shop.page(f"/start/{PUMP}") as screen:
            assert comes_before(screen, "tag", "takes")
            assert any(text.startswith("Tagged out of service") for text in screen.texts())
        lifted = {"what": "tag_lifted", "name": "Bo", "strokes": ()}
        shop.parts.open_walks.do(TAGGED, "Bo", (Signed, lifted))
        async with shop.page(f"/start/{PUMP}") as screen:
            assert not screen.has("tag")


async def test_a_record_tells_its_tag_before_its_first_defect(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as shop, shop.page(f"/record/{TAGGED}") as screen:
        assert comes_before(screen, "tagged", "steps")
        texts = screen.texts()
        tag = next(
            n for n, text in enumerate(texts) if text.startswith("Out-of-service tag placed")
        )
        begun = next(n for n, text in enumerate(texts) if text.startswith("Begun "))
        assert tag < begun


@pytest.mark.parametrize("size", [SMALL_PHONE, ON_ITS_SIDE])
async def test_on_a_low_page_the_files_of_a_record_leave_the_room_to_what_was_found(
    depot: App, size: tuple[int, int]
) -> None:
    walk_id = found_dark(depot)
    async with depot.page(f"/record/{walk_id}") as screen:
        assert not scrolls(screen, "file_pdf")
        await wear(screen, size)
        assert scrolls(screen, "file_pdf")
        assert comes_before(screen, "steps", "file_pdf")


async def test_on_a_low_page_what_is_done_with_a_vehicles_file_is_scrolled(depot: App) -> None:
    found_dark(depot)
    async with depot.page(f"/vehicle/{SEMITRAILER}") as screen:
        assert not scrolls(screen, "copy")
        await wear(screen, ON_ITS_SIDE, 2.0)
        assert scrolls(screen, "copy")
        assert not scrolls(screen, "start")
        assert 2 * screen.find("1 open defect").size <= 38


async def test_the_number_of_defects_is_drawn_no_larger_than_fits_a_line(depot: App) -> None:
    walk_id = found_dark(depot)
    async with depot.page(f"/record/{walk_id}") as screen:
        await wear(screen, SMALL_PHONE, 2.0)
        assert 2 * screen.find("1 open defect").size <= 38


async def test_a_question_before_a_walk_has_its_answers_beside_it_where_there_is_no_height(
    depot: App,
) -> None:
    depot.begin(SEMITRAILER)
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        await screen.click("begin")
        await screen.until(lambda: screen.has("go_on_asked"))
        assert not _beside(screen)
        await wear(screen, ON_ITS_SIDE, 2.0)
        assert _beside(screen)


def _beside(screen: Screen) -> bool:
    """Whether the answers stand in the right one of two halves."""
    control: Any = screen.find("go_on_asked")
    while control := control.parent:
        row = control.parent
        if isinstance(row, ft.Row) and [half.expand for half in row.controls] == [1, 1]:
            return control is row.controls[1]
    return False


async def test_the_first_screen_spends_no_height_of_a_low_page_on_what_the_app_is(
    depot: App,
) -> None:
    about = "Lamps and air brakes, one step at a time"
    async with depot.page("/") as screen:
        assert comes_before(screen, about, "practice")
        await wear(screen, SMALL_PHONE, 2.0)
        assert comes_before(screen, "practice", about)


async def test_the_strip_of_practice_takes_one_line_at_twice_the_text(depot: App) -> None:
    async with depot.page("/practice") as screen:
        await wear(screen, SMALL_PHONE, 2.0)
        drawn_px = 2 * screen.find("Practice: touch nothing real.").size
        assert SMALL <= drawn_px <= 22


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("path", ["/settings", f"/start/{SEMITRAILER}", "/records"])
async def test_no_choice_stands_without_its_word(depot: App, path: str, language: str) -> None:
    depot.parts.store.change_settings({"language": language})
    async with depot.page(path) as screen:
        for size in (SMALL_PHONE, ON_ITS_SIDE):
            for scale in (1.0, 2.0):
                await wear(screen, size, scale)
                faces = [button.content for button in screen.controls(ft.Button)]
                alone = [face.icon for face in faces if isinstance(face, ft.Icon)]
                assert not {radio_icon(False), radio_icon(True)} & {*alone}


def at_lamps(depot: App) -> tuple[str, Step]:
    """A walk in practice that stands at the first lamps, and that step."""
    vehicle = next(each for each in depot.parts.library.vehicles if each.id == SEMITRAILER)
    asked = plan_walk(vehicle, depot.parts.library.rules, scope="lamps")
    practice = depot.parts.practice.open_walks
    plan = practice_plan(asked, Practice(level="dead_lamp", seed=2))
    walk_id = practice.begin(plan, "Kim")
    while (step := practice.walk(walk_id).here) and step.kind != "lamp":
        body: dict[str, object] = {"step": step.id, "answer": "ok"}
        body |= {"choice": step.choices[0].id} if step.choices else {}
        practice.do(walk_id, "Kim", (Answered, body))
    assert step is not None
    return walk_id, step


@pytest.mark.parametrize("scale", [1.0, 2.0])
async def test_in_practice_the_picture_on_a_phone_on_its_side_is_seen_before_an_answer(
    depot: App, scale: float
) -> None:
    walk_id, _ = at_lamps(depot)
    async with depot.page(f"/practice/walk/{walk_id}") as screen:
        await wear(screen, ON_ITS_SIDE, scale)
        control: Any = screen.find("picture")
        while not str(control.key).startswith("must_"):
            control = control.parent
        await screen.fire(control, "size_change", {"w": 430.0, "h": 500.0})
        while not str(control.key).startswith("words_"):
            control = control.parent
        await screen.fire(control, "size_change", {"w": 430.0, "h": 290.0})
        await screen.until(lambda: screen.has("Read on"))


@pytest.mark.parametrize("scale", [1.0, 2.0])
async def test_in_practice_what_is_lit_has_its_rays_on_the_smallest_phone(
    depot: App, scale: float
) -> None:
    walk_id, step = at_lamps(depot)
    plan = depot.parts.practice.open_walks.walk(walk_id).plan
    assert plan is not None
    async with depot.page(f"/practice/walk/{walk_id}") as screen:
        await wear(screen, SMALL_PHONE, scale)
        await screen.until(lambda: screen.has("picture"))
        picture = next(each for each in screen.controls(ft.Image) if each.height)
        look = PictureStyle(picture.width, picture.height, dark=False)
        lamps = seen_lamps(plan, step, look)
        assert lamps
        # The radius of a lamp and the clear distance around it leave its rays so much.
        assert all(lamp.symbol.reach >= 4 for lamp in lamps)


async def test_on_a_phone_on_its_side_there_is_half_the_page_to_sign_in(depot: App) -> None:
    walk_id = found_dark(depot)
    async with depot.page(f"/record/{walk_id}") as screen:
        await screen.click("sign")
        await screen.click("sign_walked")
        await wear(screen, ON_ITS_SIDE, 2.0)
        column = next(each for each in screen.controls(ft.Container) if each.padding)
        assert column.width is None
        assert 400 < screen.find("sign_field").width <= (915 - 24 - 24) / 2


async def test_small_buttons_keep_their_words_whole_where_only_the_layout_tells_of_the_width(
    depot: App,
) -> None:
    walk_id, do = depot.begin(SEMITRAILER), depot.parts.open_walks.do
    while (step := depot.parts.open_walks.walk(walk_id).here) and step.must:
        body: dict[str, object] = {"step": step.id, "answer": "ok"}
        body |= {"choice": step.choices[0].id} if step.choices else {}
        do(walk_id, "Kim", (Answered, body))
    async with depot.page(f"/walk/{walk_id}") as screen:
        [measure] = [text for text in screen.controls(ft.Text) if text.size == 100]
        await screen.fire(measure, "size_change", {"w": 1.0, "h": 200.0})
        [whole] = [each for each in screen.controls(ft.Stack) if each.expand]
        # Flet's page heard nothing of it.
        await screen.fire(whole, "size_change", dict(zip("wh", SMALL_PHONE, strict=True)))
        drawn_px = 2 * screen.find("Explain").size
        share_px = (SMALL_PHONE[0] - 24 - 3 * 8) / 4
        assert drawn_px * word_em("Explain") <= share_px


WAITED = made_step("held", "finish", "wait", wait={"after": "vented", "seconds": 900})


async def test_the_clock_of_a_wait_is_no_larger_at_twice_the_text(depot: App) -> None:
    walk_id = waits(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        for size in (SMALL_PHONE, ON_ITS_SIDE):
            await wear(screen, size, 2.0)
            drawn_px = 2 * screen.find("left").size
            assert 64 <= drawn_px <= min(88, 0.2 * size[1])


async def test_a_wait_that_is_over_takes_no_ok_before_its_words_were_read(depot: App) -> None:
    walk_id = waits(depot)
    depot.clock.wait(901)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await wear(screen, SMALL_PHONE, 2.0)
        assert screen.has("OK")
        # Once words above keys have not fitted they are made smaller, and told anew.
        for _ in range(2):
            for part, px in (("must_", 500.0), ("words_", 120.0)):
                key = next(key for key in keys(screen) if key.startswith(part))
                await screen.fire(screen.find(key), "size_change", {"w": 336.0, "h": px})
        await screen.until(lambda: screen.has("Read on"))
        assert not screen.has("OK")
        assert screen.has("Defect")


def waits(depot: App) -> str:
    """A walk that stands at a wait of 15 minutes."""
    vented = made_step("vented", "finish", "act")
    walk_id = depot.parts.open_walks.begin(plan((vented, WAITED)), "Kim")
    depot.parts.open_walks.do(walk_id, "Kim", (Answered, {"step": "vented", "answer": "ok"}))
    return walk_id


def keys(screen: Screen) -> list[str]:
    """The keys of what is on the page."""
    return [each.key for each in screen.controls() if isinstance(each.key, str)]
