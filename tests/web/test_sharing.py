"""Record files over HTTP: out as a download, in by a ticket and no other way."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import AsyncIterator
from pathlib import Path

import httpx
import pytest
from support.shops import Shop, picture, walk_of
from support.voices import BriefVoice
from support.walks import FakeClock

from walkaround.access.gate import LARGE, MOST_BODY_BYTES
from walkaround.bootstrap import build
from walkaround.exchange.verify import verify
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.walk.events import Photographed
from walkaround.web.server import asgi

ADDRESS = "http://127.0.0.1:8765"


@pytest.fixture
async def client(tmp_path: Path) -> AsyncIterator[httpx.AsyncClient]:
    Shop(tmp_path / "north", "Depot North").keep(1, "ab")
    parts = build(tmp_path / "north", clock=FakeClock(), voice=BriefVoice(tmp_path / "speech"))
    try:
        transport = httpx.ASGITransport(asgi(parts))
        async with httpx.AsyncClient(transport=transport, base_url=ADDRESS) as asking:
            asking.parts = parts  # type: ignore[attr-defined]
            yield asking
    finally:
        parts.close()


@pytest.mark.parametrize(
    ("name", "called"),
    [
        ("all.zip", "depot_north_2026-11-25.zip"),
        (f"{walk_of(1)}.zip", "pump_trailer_3_2026-11-26_0815.zip"),
    ],
)
async def test_walks_are_downloaded_as_a_record_file(
    client: httpx.AsyncClient, tmp_path: Path, name: str, called: str
) -> None:
    answer = await client.get(f"/shared/{name}")
    assert (answer.status_code, answer.headers["content-type"]) == (200, "application/zip")
    assert f'filename="{called}"' in answer.headers["content-disposition"]
    (tmp_path / "out.zip").write_bytes(answer.content)
    told = verify(tmp_path / "out.zip", {})
    assert (told.walks, told.faults) == (1, [])
    assert not list((tmp_path / "north" / "sharing").glob("*.tmp"))


@pytest.mark.parametrize("name", ["x.zip", f"{walk_of(2)}.zip", walk_of(1), "all"])
async def test_there_is_no_other_file(client: httpx.AsyncClient, name: str) -> None:
    assert (await client.get(f"/shared/{name}")).status_code == 404


async def test_what_nobody_asked_for_is_not_taken(client: httpx.AsyncClient) -> None:
    own = {"origin": ADDRESS}
    large = b"x" * (MOST_BODY_BYTES + 1)
    for path, status in ((f"{LARGE}x", 404), ("/received/x", 413)):
        answer = await client.put(path, content=large, headers=own)
        assert answer.status_code == status


async def test_a_photo_is_shown_by_its_digest_and_no_other_file(
    client: httpx.AsyncClient, tmp_path: Path
) -> None:
    shop = Shop(tmp_path / "north")
    photo = PhotoFolder(shop.data).save(walk_of(1), picture())
    address = f"/photos/{walk_of(1)}/{photo}.jpg"
    assert (await client.get(address)).status_code == 404
    walks: OpenWalks = client.parts.open_walks  # type: ignore[attr-defined]
    walks.do(walk_of(1), "Ana", (Photographed, {"step": "chocks", "photo": photo}))
    answer = await client.get(address)
    assert (answer.status_code, answer.content) == (200, picture())
    assert answer.headers["content-type"] == "image/jpeg"
    assert (await client.get(f"/photos/{walk_of(1)}/key.jpg")).status_code == 404


@pytest.mark.parametrize(("name", "rows"), [("walks.csv", 1), ("facts.csv", 0)])
async def test_the_table_of_all_walks_is_downloaded(
    client: httpx.AsyncClient, name: str, rows: int
) -> None:
    """The walk has notes alone, so it has a row among the walks and none among the facts."""
    answer = await client.get(f"/tables/{name}?language=en")
    assert answer.status_code == 200
    assert f'filename="{name}"' in answer.headers["content-disposition"]
    table = csv.DictReader(io.StringIO(answer.text))
    assert [row["walk"] for row in table] == [walk_of(1)] * rows
    assert "walk" in (table.fieldnames or ())
    assert (await client.get("/tables/key.csv")).status_code == 404


async def test_the_same_is_downloaded_as_lines_for_programs(client: httpx.AsyncClient) -> None:
    answer = await client.get("/tables/walks.ndjson?language=en")
    assert answer.headers["content-type"].startswith("application/x-ndjson")
    assert [json.loads(line)["walk"] for line in answer.text.splitlines()] == [walk_of(1)]
    assert (await client.get("/tables/facts.ndjson")).text == ""
    assert (await client.get("/tables/facts.pdf")).status_code == 404
