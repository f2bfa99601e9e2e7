"""The card of a vehicle's walk: one sheet, all steps on it, and a code that opens its start."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import numpy as np
import pypdf
import pypdfium2
import pytest
import zxingcpp
from support.app import App, app

from walkaround.bootstrap import language_words
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.report.quick_card.card import SMALLEST
from walkaround.vehicle.model import Vehicle
from walkaround.web.printed_pages import card_file

BASE = "http://192.0.2.7:8765/"
TRACTOR = "depot_tractor_2"
POWERS = ("box", "cab")
LANGUAGES = ("en", "es")


def card(depot: App, vehicle: str, language: str, power: str) -> bytes:
    return bytes(card_file(depot.parts, f"{vehicle}.pdf", BASE, language, power).body)


def on_one_line(text: str) -> str:
    return " ".join(text.split())


def held_to_one_sheet(depot: App, vehicle: Vehicle, language: str, power: str) -> bytes:
    """All steps stand on one sheet, in letters that can be read; the sheet."""
    plan = plan_walk(vehicle, depot.parts.library.rules, power=power, together=True)
    data = card(depot, vehicle.id, language, power)
    [page] = pypdf.PdfReader(io.BytesIO(data)).pages
    sizes: list[float] = []

    def note_size(text: str, *about: Any) -> None:
        if text.strip():
            sizes.append(about[3])

    read, words = on_one_line(page.extract_text(visitor_text=note_size)), language_words(language)
    missing = [s.id for s in plan.steps if on_one_line(words.text(s.title)) not in read]
    assert not missing, (vehicle.id, power, language)
    # The foot is set a little smaller.
    assert min(sizes) >= 0.9 * SMALLEST
    return data


async def test_all_steps_stand_on_one_black_and_white_sheet_with_the_code_of_the_start_page(
    tmp_path: Path,
) -> None:
    """Of the vehicle of most steps, in the language of most letters."""
    async with app(tmp_path) as depot:
        vehicle = next(each for each in depot.parts.library.vehicles if each.id == TRACTOR)
        data = held_to_one_sheet(depot, vehicle, "es", "cab")
    with pypdfium2.PdfDocument(data) as document:
        pixels = document[0].render(scale=3).to_numpy()
    assert int(np.ptp(pixels.astype(int), axis=2).max()) == 0
    [code] = zxingcpp.read_barcodes(pixels)
    assert code.text == f"{BASE}start/{TRACTOR}"


@pytest.mark.soak
async def test_every_shipped_vehicle_has_all_steps_on_one_sheet(tmp_path: Path) -> None:
    cards = 0
    async with app(tmp_path) as depot:
        library = depot.parts.library
        for vehicle in library.vehicles:
            for power in set(POWERS) & set(powers_for(vehicle, library.power_sources)):
                for language in LANGUAGES:
                    held_to_one_sheet(depot, vehicle, language, power)
                    cards += 1
    print(f"\n{cards} cards, each on one sheet")
    assert cards == 24


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
