"""A photo taken on the panel of a note: it is shown, kept and told; a bad one gets a sentence."""

from __future__ import annotations

from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from support.app import App, app
from support.flet_harness import Screen
from support.handing import putting
from support.shops import picture

from walkaround.walk.events import MOST_PHOTOS


@pytest.fixture
async def depot(tmp_path: Path) -> AsyncIterator[App]:
    async with app(tmp_path / "data") as running:
        yield running


async def take(depot: App, screen: Screen, data: bytes) -> None:
    picker = screen.find("photo").action.file_picker
    file = {"id": 1, "name": "x.jpg", "size": len(data), "path": None, "bytes": None}
    await screen.fire(picker, "result", {"files": [file]})
    asked: list[Any] = [call for call in screen.invoked if call.method == "upload"]
    ticket = asked[-1].args["files"][0].upload_url.removeprefix("/large/")
    assert await depot.inbox.receive(ticket, putting(data)) == 204
    at = {"file_name": "x.jpg", "progress": 1.0, "error": None}
    await screen.fire(picker, "upload", at)
    await screen.until(lambda: not screen.has("photo_coming"))


async def test_a_photo_is_kept_and_shown_at_its_step(depot: App) -> None:
    walk_id = depot.begin("sandbag_semitrailer_7")
    step = depot.parts.open_walks.walk(walk_id).steps[0].id
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("note")
        await take(depot, screen, picture())
        assert screen.has(f"photos_{step}")
        assert "11 more photos can be taken in this walk." in screen.texts()
        (photo,) = depot.parts.open_walks.walk(walk_id).photos[step]
        assert depot.parts.photos.read(walk_id, photo)
        assert f"/photos/{walk_id}/{photo}.jpg" in [
            image.src for image in screen.controls() if hasattr(image, "src")
        ]


async def test_what_is_no_photo_gets_a_sentence_and_the_note_stays(depot: App) -> None:
    walk_id = depot.begin("sandbag_semitrailer_7")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("note")
        await screen.fill("note_text", "wet ground")
        await take(depot, screen, b"tires")
        assert "x.jpg: it is no photo, or damaged; take another one." in screen.texts()
        await screen.click("save_note")
        step = depot.parts.open_walks.walk(walk_id).steps[0].id
        assert depot.parts.open_walks.walk(walk_id).notes[step] == "wet ground"


async def test_after_the_twelfth_none_is_asked_for(depot: App) -> None:
    walk_id = depot.begin("sandbag_semitrailer_7")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("note")
        for number in range(MOST_PHOTOS):
            await take(depot, screen, picture(number * 20))
        assert not screen.has("photo")
        assert "This walk has all the photos it can hold." in screen.texts()
