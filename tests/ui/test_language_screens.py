"""The language that a phone reads and hears, chosen in its settings."""

from __future__ import annotations

import flet as ft
from browser.seeds import answer
from support.app import App

from walkaround.bootstrap import language_words

TRAILER = "sandbag_semitrailer_7"
SPANISH = language_words("es")


async def test_a_phone_chooses_its_language_and_hears_it_at_once(depot: App) -> None:
    async with depot.page("/settings") as screen, depot.page("/settings") as other:
        await screen.click("language_es")
        assert SPANISH("settings-title") in screen.texts()
        assert depot.voice.said[-1] == SPANISH.spoken(SPANISH("settings-sample"))
        assert depot.voice.spoken_in == "es"
        assert "Settings" in other.texts()
    assert depot.parts.settings().language == "es"


async def test_pictures_and_files_are_asked_for_in_the_phones_language(depot: App) -> None:
    depot.parts.store.change_settings({"language": "es"})
    walk_id = depot.begin(TRAILER, scope="lamps")
    open_walks = depot.parts.open_walks
    while (step := open_walks.walk(walk_id).here) and step.kind != "lamp":
        answer(depot.parts, walk_id, step)
    assert step is not None
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert SPANISH.text(step.title) in screen.texts()
        # The first step marks no place on the vehicle.
        await screen.click("ok")
        asked = [image.src for image in screen.controls(ft.Image)]
        assert any(src.startswith("/plans/") and "/es/" in src for src in asked)
        assert all(src.endswith(".svg") for src in asked)


async def test_a_language_that_was_begun_says_what_it_lacks_and_is_spoken_in_english(
    depot: App,
) -> None:
    german = language_words("de")
    async with depot.page("/settings") as screen:
        await screen.click("language_de")
        assert german("settings-title") == "Einstellungen"
        assert "Einstellungen" in screen.texts()
        assert german("settings-language-lacks", count=german.lacking) in screen.texts()
        assert depot.voice.spoken_in == "en"
        await screen.click("language_en")
        assert not [text for text in screen.texts() if "still in English" in text]


async def test_a_language_that_is_no_longer_there_is_that_of_the_computer(depot: App) -> None:
    depot.parts.store.change_settings({"language": "qq"})
    async with depot.page("/settings") as screen:
        assert "Settings" in screen.texts()
