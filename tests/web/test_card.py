"""The card of a vehicle's walk: one sheet, all steps on it, and a code that opens its start."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest
import zxingcpp
from support.app import App, app
from support.english import ENGLISH

from walkaround.bootstrap import language_words
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.report.quick_card.card import SMALLEST
from walkaround.web.codes import card_file

BASE = "http://192.0.2.7:8765/"
POWERS = ("box", "cab")
LANGUAGES = ("en", "es")


def card(depot: App, vehicle: str, language: str, power: str) -> bytes:
    return bytes(card_file(depot.parts, f"{vehicle}.pdf", BASE, language, power).body)


def on_one_line(text: str) -> str:
    return " ".join(text.split())


async def test_every_shipped_vehicle_has_all_steps_on_one_sheet_in_letters_to_be_read(
    tmp_path: Path,
) -> None:
    smallest: dict[tuple[str, str, str], float] = {}
    async with app(tmp_path) as depot:
        library = depot.parts.library
        for vehicle in library.vehicles:
            for power in set(POWERS) & set(powers_for(vehicle, library.power_sources)):
                plan = plan_walk(vehicle, library.rules, power=power, together=True)
                for language in LANGUAGES:
                    data = card(depot, vehicle.id, language, power)
                    [page] = pypdf.PdfReader(io.BytesIO(data)).pages
                    sizes: list[float] = []
                    read = page.extract_text(
                        visitor_text=lambda text, *a, sizes=sizes: (
                            sizes.append(a[3]) if text.strip() else None
                        )
                    )
                    text, words = on_one_line(read), language_words(language)
                    places = [text.find(on_one_line(words.text(s.title))) for s in plan.steps]
                    missing = [s.id for s, at in zip(plan.steps, places, strict=True) if at < 0]
                    assert not missing, (vehicle.id, power, language)
                    smallest[vehicle.id, power, language] = min(sizes)
    assert len(smallest) >= 20
    assert {which: size for which, size in smallest.items() if size < SMALLEST * 0.9} == {}


async def test_the_card_is_black_on_white_and_its_code_opens_the_start_page(tmp_path: Path) -> None:
    async with app(tmp_path) as depot:
        data = card(depot, "sandbag_semitrailer_7", "es", "box")
    with pypdfium2.PdfDocument(data) as document:
        pixels = document[0].render(scale=3).to_numpy()
    assert int(np.ptp(pixels.astype(int), axis=2).max()) == 0
    [code] = zxingcpp.read_barcodes(pixels)
    assert code.text == f"{BASE}start/sandbag_semitrailer_7"


@pytest.mark.parametrize(
    ("name", "power"),
    [
        ("no_such.pdf", "box"),
        ("sandbag_semitrailer_7", "box"),
        ("sandbag_semitrailer_7.pdf", "sail"),
        ("depot_tractor_2.pdf", "box"),
    ],
)
async def test_no_card_of_what_is_not_there(tmp_path: Path, name: str, power: str) -> None:
    async with app(tmp_path) as depot:
        assert card_file(depot.parts, name, BASE, "en", power).status_code == 404


async def test_the_page_of_a_vehicle_leads_to_its_cards(depot: App) -> None:
    async with depot.page("/vehicle/sandbag_semitrailer_7") as screen:
        for power in POWERS:
            [button] = [screen.find(f"card_{power}")]
            assert button.url.url == (f"/cards/sandbag_semitrailer_7.pdf?language=en&power={power}")
        assert ENGLISH("card-heading") in screen.texts()
