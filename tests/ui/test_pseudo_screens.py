"""Every screen in a language made of the English files: nothing on it stays English.

What a screen draws without a message shows here as English. Kept as they are: what people typed,
ids, units, and sources, which are quoted as they were published.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from functools import cache
from pathlib import Path
from random import Random

import pytest
from support.app import App, app
from support.english import ENGLISH
from support.flet_harness import Screen
from support.pseudo_language import english_in, pseudo_words, sources_in
from support.spanish import english_words
from support.strangewalk import answered, begun_hold

from walkaround.base.message import read_in_logs_by
from walkaround.disk.locations import shipped
from walkaround.exchange.shop_key import long_key
from walkaround.library.languages import languages
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.plan.steps import Plan, Step
from walkaround.walk.events import Finished, Paused, Resumed
from walkaround.words.language import language_name

WHO = "Kim"
# A language is named in itself, wherever it is offered.
KEPT = ("walkaround", WHO, *map(language_name, languages()))
Finder = Callable[[str, Iterable[str]], list[str]]
TRAILER, TRACTOR = "sandbag_semitrailer_7", "depot_tractor_2"


@cache
def shipped_library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def plans_of(vehicle_id: str) -> Iterator[Plan]:
    library = shipped_library()
    vehicle = next(each for each in library.vehicles if each.id == vehicle_id)
    for power in powers_for(vehicle, library.power_sources):
        for together in (False, True):
            yield plan_walk(vehicle, library.rules, power=power, together=together)


class Looker:
    """Looks at screens for English, and keeps what it saw with where it was."""

    def __init__(self, kept: set[str], find: Finder = english_in) -> None:
        self.kept = kept
        self.find = find
        self.english: set[tuple[str, str, str]] = set()
        self.screens = 0

    def look(self, where: str, screen: Screen) -> None:
        self.screens += 1
        for text in (*screen.texts(), *screen.names()):
            self.english |= {(where, word, text) for word in self.find(text, self.kept)}


@pytest.fixture
def _logs_read_english_after() -> Iterator[None]:
    yield
    read_in_logs_by(ENGLISH.text)


async def around(depot: App, looker: Looker, vehicle_id: str) -> None:
    """The screens that need no walk."""
    routes = ("/", "/vehicles", "/records", "/settings", "/vehicle/new", "/walk/0", "/compared/0")
    routes += ("/keys", "/contacts", "/sharing", "/board", "/keeping", "/practice")
    of_vehicle = (f"/{kind}/{vehicle_id}" for kind in ("start", "vehicle", "practice"))
    for route in (*routes, *of_vehicle):
        async with depot.page(route) as screen:
            looker.look(route, screen)


async def at_step(depot: App, looker: Looker, screen: Screen, walk_id: str, step: Step) -> None:
    """One step, and what opens over it."""
    looker.look(step.id, screen)
    for way in ("defect", "other", "note"):
        if screen.has(way) and not (way == "defect" and step.kind in ("gauges", "measure", "hold")):
            await screen.click(way)
            looker.look(f"{step.id}/{way}", screen)
            if way == "defect" and len(step.items) > 1:
                await screen.click(f"item_{step.items[0].id}")
                looker.look(f"{step.id}/item", screen)
                await screen.click("back")
            await screen.click("back")
    if step.hold:
        depot.parts.open_walks.do(walk_id, WHO, *begun_hold(step))
        await screen.settle()
        looker.look(f"{step.id}/running", screen)


async def opened(looker: Looker, screen: Screen, first: str, panels: Iterable[str]) -> None:
    """What is opened from the step's screen, and from there."""
    for panel in panels:
        while not screen.has("wording"):
            await screen.click("back")
        await screen.click(first)
        looker.look(first, screen)
        if screen.has(panel):
            await screen.click(panel)
            looker.look(panel, screen)


async def walked(depot: App, looker: Looker, vehicle_id: str) -> None:
    """Every screen of one walk, from the first one to its record."""
    looker.kept |= {
        *KEPT,
        str(depot.parts.data),
        *long_key(depot.parts.sharing.key().public).split(),
        # Drawn by chance, and of letters that may spell anything.
        long_key(depot.parts.sharing.key().public),
        *(source for plan in plans_of(vehicle_id) for source in sources_in(plan)),
    }
    for vehicle in depot.parts.library.vehicles:
        looker.kept |= {vehicle.name, vehicle.notes, *vehicle.damage}
    await around(depot, looker, vehicle_id)
    walk_id = depot.begin(vehicle_id, who=WHO)
    chance = Random(1)
    async with depot.page(f"/walk/{walk_id}") as screen:
        kinds = set()
        for step in depot.parts.open_walks.walk(walk_id).steps:
            kind = (step.kind, len(step.items) > 1, step.must, bool(step.choices))
            if kind not in kinds or step.hold:
                kinds.add(kind)
                await screen.settle()
                await at_step(depot, looker, screen, walk_id, step)
            answered(chance, depot.parts, walk_id, WHO, step)
        await screen.settle()
        looker.kept |= {*depot.parts.open_walks.walk(walk_id).notes.values()}
        looker.look("summary", screen)
        await screen.click("back")
        looker.look("looked back at", screen)
        for way in ("menu", "steps"):
            await screen.click(way)
            looker.look(way, screen)
        await opened(looker, screen, "menu", ("keys", "end"))
        repairs = [
            f"repaired_{defect.step}"
            for defect in depot.parts.open_walks.walk(walk_id).open_defects
        ]
        await opened(looker, screen, "defects", ("causes", "leaks", *repairs[:3]))
    do = depot.parts.open_walks.do
    async with depot.page(f"/cab/{walk_id}") as screen:
        looker.look("cab", screen)
    do(walk_id, WHO, (Paused, {}))
    async with depot.page(f"/walk/{walk_id}") as screen:
        looker.look("paused", screen)
    do(walk_id, WHO, (Resumed, {}), (Finished, {}))
    seen = ("/records", "/board", f"/board/{vehicle_id}", "/keeping", "/sharing", "/")
    for route in (f"/record/{walk_id}", f"/vehicle/{vehicle_id}", *seen):
        async with depot.page(route) as screen:
            looker.look(route, screen)
    assert looker.screens > 30
    assert sorted(looker.english) == []


@pytest.mark.usefixtures("_logs_read_english_after")
@pytest.mark.parametrize("vehicle_id", [TRAILER, TRACTOR])
async def test_no_screen_holds_a_word_of_english(tmp_path: Path, vehicle_id: str) -> None:
    plugs = [plug.name for plug in shipped_library().connectors.values()]
    words = pseudo_words([*plans_of(vehicle_id), *plugs])
    read_in_logs_by(words.text)
    async with app(tmp_path, words=words) as depot:
        await walked(depot, Looker(set()), vehicle_id)


async def test_a_phone_that_chose_spanish_shows_no_english(tmp_path: Path) -> None:
    async with app(tmp_path) as depot:
        depot.parts.store.change_settings({"language": "es"})
        await walked(depot, Looker(set(), english_words), TRAILER)
        assert depot.voice.spoken_in == "es"
