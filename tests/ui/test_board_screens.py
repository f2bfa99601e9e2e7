"""The board on a phone, and finding a walk by what is known of it."""

from __future__ import annotations

from pathlib import Path

import httpx
from support.app import app
from support.shop import PUMP, fill

from walkaround.web.server import asgi


async def test_each_row_of_the_board_opens_its_vehicle(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as depot, depot.page("/records") as screen:
        await screen.click("board")
        assert "Tagged out of service" in screen.text
        # What was found, not only where.
        await screen.until(lambda: "dark (" in screen.text)
        await screen.click(f"board_{PUMP}")
        assert "Pump trailer 3" in screen.text
        assert screen.has("start")


async def test_walks_are_found_by_plate_person_day_and_defect(tmp_path: Path) -> None:
    fill(tmp_path)
    wanted = {"4711": 1, "bohdan": 2, "2026-05-03": 1, "gladhands": 1, "qqq": 0}
    async with app(tmp_path) as depot, depot.page("/records") as screen:
        for typed, count in wanted.items():
            await screen.fill("search", typed)
            keys = [str(each.key) for each in screen.controls()]
            assert sum(key.startswith("record_") for key in keys) == count, typed


async def test_the_board_is_printed_as_pdf_and_html(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as depot:
        transport = httpx.ASGITransport(asgi(depot.parts))
        async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1") as client:
            pdf = await client.get("/printed/board.pdf")
            assert (pdf.status_code, pdf.content[:5]) == (200, b"%PDF-")
            html = (await client.get("/printed/board.html?language=es")).text
            assert "Tablero" in html
            assert "dark" in (await client.get("/printed/board.html")).text
            assert (await client.get("/printed/other.pdf")).status_code == 404


async def test_the_history_of_a_vehicle_is_one_tap_from_it(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as depot, depot.page("/vehicle/sandbag_semitrailer_7") as screen:
        await screen.click("history")
        await screen.until(lambda: "Air holds and strokes" in screen.text)
        assert "2026-10-03: found by Ana" in screen.text
        told = [each for each in screen.names() if each.startswith("One after the other")]
        assert any("1.5, 1.6" in each.replace(" in", "") or "1 1/2" in each for each in told)
        assert "It says nothing of later days" in screen.text
