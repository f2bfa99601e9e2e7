"""Walks shared and brought in on the screens: what comes of a file, and both copies of a walk."""

from __future__ import annotations

from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from support.app import App, app
from support.flet_harness import Screen
from support.handing import putting
from support.shops import Shop, told, walk_of

from walkaround.exchange.shop_key import ShopKey
from walkaround.records.walk_file import WalkFile, rows_of
from walkaround.ui.home.sharing import MOST_IMPORT_BYTES


@pytest.fixture
async def south(tmp_path: Path) -> AsyncIterator[App]:
    """An app whose data folder has a walk that went on as "ab"."""
    Shop(tmp_path / "south", "Depot South").keep(1, "ab")
    async with app(tmp_path / "south") as running:
        yield running


@pytest.fixture
def north(tmp_path: Path) -> Shop:
    shop = Shop(tmp_path / "north", "Depot North")
    shop.keep(1, "aa")
    shop.keep(2, "b")
    return shop


async def bring_in(
    south: App, screen: Screen, data: bytes, *, size: int | None = None, take: bool = True
) -> None:
    """A file is chosen; if the page asks for it, the browser hands it over, and it is taken in."""
    picker = screen.find("bring_in").action.file_picker
    size = len(data) if size is None else size
    file = {"id": 1, "name": "north.zip", "size": size, "path": None, "bytes": None}
    await screen.fire(picker, "result", {"files": [file]})
    asked: list[Any] = [call for call in screen.invoked if call.method == "upload"]
    if asked:
        ticket = asked[-1].args["files"][0].upload_url.removeprefix("/large/")
        assert await south.inbox.receive(ticket, putting(data)) == 204
        for progress in (0.0, 1.0):
            at = {"file_name": "north.zip", "progress": progress, "error": None}
            await screen.fire(picker, "upload", at)
    await screen.until(lambda: not screen.has("coming"))
    if take and screen.has("take_in"):
        await screen.click("take_in")
        await screen.until(lambda: not screen.has("came"))


async def test_a_file_is_brought_in_and_what_became_of_its_walks_is_told(
    south: App, north: Shop, tmp_path: Path
) -> None:
    file = north.share(tmp_path / "north.zip")
    async with south.page("/records") as screen:
        await screen.click("sharing")
        await bring_in(south, screen, file.read_bytes())
        await screen.until(lambda: screen.has("merged"))
        words = screen.texts()
        assert "1 walk added, 0 here already, 1 went on differently, 0 refused." in words
        assert any("this walk went on differently here and there" in word for word in words)
        await screen.click("keep_key")
        await screen.until(lambda: not screen.has("unknown_key"))
        key = north_key(north)
        assert f"Signed by Depot North, key {key[:4]}." in screen.texts()
        one, other = south.parts.store.overview().copies[walk_of(1)]
        await screen.click(f"copy_{other}")
        await screen.until(lambda: not screen.has("merged"))
    assert not list((tmp_path / "south" / "sharing").glob("*.tmp"))
    for id_, letters in ((one, "ab"), (other, "aa")):
        assert south.parts.store.load(id_).events == told(1, letters)


def north_key(north: Shop) -> str:
    return ShopKey.of(north.data).public


async def test_what_is_in_a_file_is_told_before_it_is_brought_in(
    south: App, north: Shop, tmp_path: Path
) -> None:
    file = north.share(tmp_path / "north.zip")
    async with south.page("/sharing") as screen:
        await bring_in(south, screen, file.read_bytes(), take=False)
        assert "Not a byte was changed: 2 walks, 0 photos." in screen.texts()
        assert any(t.startswith("Signed by Depot North, whose key") for t in screen.texts())
        assert len(south.parts.store.overview().lines) == 1
        await screen.click("leave_it")
        await screen.until(lambda: not screen.has("came"))
    assert len(south.parts.store.overview().lines) == 1
    assert not list((tmp_path / "south" / "sharing").glob("*.tmp"))


async def test_a_file_that_was_changed_is_refused_with_a_sentence(
    south: App, north: Shop, tmp_path: Path
) -> None:
    data = bytearray(north.share(tmp_path / "north.zip").read_bytes())
    data[300] ^= 1
    async with south.page("/sharing") as screen:
        await bring_in(south, screen, bytes(data))
        refused = "it is not as it was written: bytes were changed or lost on the way"
        assert refused in screen.texts()
        assert not screen.has("take_in")
        await screen.click("leave_it")
        await screen.until(lambda: not screen.has("came"))
        assert not screen.has("merged")
    assert not list((tmp_path / "south" / "sharing").glob("*.tmp"))
    assert len(south.parts.store.overview().lines) == 1


async def test_a_file_that_is_too_large_is_refused_unsent(south: App) -> None:
    async with south.page("/sharing") as screen:
        await bring_in(south, screen, b"", size=MOST_IMPORT_BYTES + 1)
        sentence = "north.zip did not come, or is larger than 500 MB; choose it again."
        assert sentence in screen.texts()
        assert not [call for call in screen.invoked if call.method == "upload"]


async def test_a_walk_with_two_copies_says_so_in_the_list_and_in_its_record(
    south: App,
) -> None:
    south.parts.open_walks.import_walk(
        f"{walk_of(1)}_12345678", WalkFile(rows_of(told(1, "aa")), told(1, "aa"), True)
    )
    async with south.page("/records") as screen:
        several = "One of several copies that went on differently"
        assert screen.texts().count(several) == 2
    async with south.page(f"/record/{walk_of(1)}") as screen:
        assert screen.has("copies")
        assert screen.has(f"copy_{walk_of(1)}_12345678")
        assert not screen.has(f"copy_{walk_of(1)}")


async def test_a_record_says_who_signed_it(south: App, north: Shop, tmp_path: Path) -> None:
    file = tmp_path / "coming.zip"
    north.share(file)
    south.parts.sharing.merge(file, "north.zip")
    south.parts.sharing.save_shop(north_key(north), "Depot North")
    async with south.page(f"/record/{walk_of(2)}") as screen:
        assert f"Signed by Depot North, key {north_key(north)[:4]}." in screen.texts()
    async with south.page(f"/record/{walk_of(1)}") as screen:
        assert not any(word.startswith(("Signed", "Not signed")) for word in screen.texts())


async def test_the_shop_gets_a_name(south: App) -> None:
    async with south.page("/sharing") as screen:
        assert screen.find("shop_name").value == "Depot South"
        await screen.fill("shop_name", "Depot  West")
        await screen.fire(screen.find("shop_name"), "submit", "Depot  West")
        await screen.until(lambda: south.parts.sharing.key().shop == "Depot West")
