"""Every screen of the app drawn from hostile data, and what must hold of each.

A screen is drawn, not replaced by an apology; nothing is logged as an error; each message to the
page packs and unpacks; the texts in it are the very texts given, and none becomes markup.
"""

from __future__ import annotations

import csv
import io
import json
import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any, get_args
from unittest.mock import patch

import flet as ft
import msgpack
from support import flet_harness
from support.app import App, app
from support.english import ENGLISH
from support.flet_harness import Screen
from support.strangedata import files, text
from support.strangewalk import answered, begun_hold, name, note

from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.records.reader import WalkReader
from walkaround.report.json_document import walk_json
from walkaround.report.tables import walk_csv
from walkaround.rules.checklist import Wording
from walkaround.settings import LONGEST_NAME, MOST_NAMES
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle.to_toml import vehicle_toml
from walkaround.walk.advance import fold
from walkaround.walk.events import Finished, Paused, Resumed
from walkaround.walk.seals import good_events
from walkaround.walk.state import Walk
from walkaround.words.prompts import prompt

_ANSWERS_AT_ONCE = frozenset({"gauges", "hold", "measure"})
"""Kinds of step at which a tap on a defect may be the answer, where at others it asks for more."""
_encoded = flet_harness.encoded
APOLOGY = ENGLISH("page-not-drawn")


@dataclass
class Heard:
    """What a page was told: the texts, and how much was drawn and sent."""

    texts: set[str] = field(default_factory=set)
    screens: int = 0
    steps: int = 0
    largest_kb: float = 0.0

    def packed(self, body: Any) -> bytes:
        """The message as it goes out; a client must be able to read it."""
        data = _encoded(body)
        self.largest_kb = max(self.largest_kb, len(data) / 1000)
        self.texts |= set(_texts(msgpack.unpackb(data, strict_map_key=False)))
        return data

    def look(self, screen: Screen, *given: str) -> None:
        """The screen is well, and these texts were sent as they are."""
        self.screens += 1
        controls = screen.controls()
        texts = [control for control in controls if isinstance(control, ft.Text)]
        assert APOLOGY not in {control.value for control in texts}
        assert not any(control.spans for control in texts)
        assert not any(isinstance(control, ft.Markdown) for control in controls)
        missing = {each for each in given if each} - self.texts
        assert not missing, missing


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for each in value.values() if isinstance(value, dict) else value:
            yield from _texts(each)


class _Errors(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.told: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.told.append(self.format(record))


@contextmanager
def _listening() -> Iterator[Heard]:
    """Pages are listened to, and nothing may be logged as an error."""
    heard, errors = Heard(), _Errors()
    logging.getLogger().addHandler(errors)
    try:
        with patch.object(flet_harness, "encoded", heard.packed):
            yield heard
    finally:
        logging.getLogger().removeHandler(errors)
    assert not errors.told, errors.told[0]


async def draw_every_screen(
    data: Path, seed: int, *, steps: int, most_steps: int, most_looks: int
) -> Heard:
    """One vehicle, its checklist and a walk on it, from its files to its record.

    Args:
        data: an empty folder.
        seed: decides everything.
        steps: so many steps a checklist has; the app's own come besides.
        most_steps: a walk that has more is ended after so many.
        most_looks: so many steps of it are looked at, of every kind some.
    """
    chance = Random(seed)
    for path, content in files(chance, steps):
        (data / path).parent.mkdir(parents=True, exist_ok=True)
        (data / path).write_bytes(content)
    with _listening() as heard:
        async with app(data) as depot:
            assert not depot.parts.library.problems
            drawn = _Everything(depot, heard, chance, data)
            await drawn.before()
            await drawn.walked(most_steps, most_looks)
            await drawn.after()
    return heard


class _Everything:
    def __init__(self, depot: App, heard: Heard, chance: Random, data: Path) -> None:
        self.depot, self.heard, self.chance, self.data = depot, heard, chance, data
        found = depot.parts.own_vehicles.vehicle("strange")
        assert found is not None
        self.vehicle: Vehicle = found
        self.who, self.walk_id = name(chance), ""
        names = [text(chance, LONGEST_NAME) for _ in range(MOST_NAMES)]
        depot.parts.store.change_settings(
            {
                "who": names[0],
                "names": names,
                "wording": chance.choice(get_args(Wording)),
                "pressure": chance.choice(("psi", "kPa", "bar")),
                "length": chance.choice(("in", "mm")),
                "altitude_m": chance.choice((-500, 6000)),
            }
        )

    @property
    def walk(self) -> Walk:
        return self.depot.parts.open_walks.walk(self.walk_id)

    def do(self, *changes: Any) -> None:
        self.depot.parts.open_walks.do(self.walk_id, self.who, *changes)

    async def shows(self, route: str, *given: str) -> None:
        self.heard.texts.clear()
        async with self.depot.page(route, dark=self.chance.random() < 0.5) as screen:
            self.heard.look(screen, *given)

    async def before(self) -> None:
        """The screens that need no walk."""
        vehicle, known = self.vehicle, self.depot.parts.settings()
        about = vehicle.notes, *vehicle.damage
        for route in ("/", "/vehicles", "/start/strange"):
            await self.shows(route, vehicle.name)
        await self.shows("/start/strange", *known.names[:4], known.who)
        await self.shows("/vehicle/strange", vehicle.name, f"Plate {vehicle.plate}", *about)
        await self.shows("/vehicle/new", f"Copy of {vehicle.name}")
        await self.shows("/vehicle/new/strange")
        await self.shows("/settings")
        await self.shows("/records")
        self.heard.texts.clear()
        async with self.depot.page("/vehicle/strange/edit") as screen:
            self.heard.look(screen, f"Edit {vehicle.name}", vehicle.name, vehicle.plate, *about)
            for key in ("damage", "brakes.axles", "kind", "made", "width_mm"):
                if screen.has(key):
                    await screen.click(key)
                    self.heard.look(screen)
                    await screen.click("close_sheet")

    def planned(self) -> Plan:
        chance, library = self.chance, self.depot.parts.library
        return plan_walk(
            self.vehicle,
            library.rules,
            power=chance.choice([*library.power_sources]),
            together=chance.random() < 0.5,
            air=chance.choice(("shop", "coupled")),
            towed=chance.randint(0, 3),
        )

    async def walked(self, most_steps: int, most_looks: int) -> None:
        """A walk answered step by step; some of each kind of step are looked at."""
        plan = self.planned()
        self.walk_id = self.depot.parts.open_walks.begin(plan, self.who)
        steps = plan.steps[:most_steps]
        looked = self._worth_a_look(steps, most_looks)
        self.heard.texts.clear()
        async with self.depot.page(f"/walk/{self.walk_id}") as screen:
            for step in steps:
                if step.id in looked:
                    looked.remove(step.id)
                    await self._step(screen, step)
                    if not looked and self.walk.phase == "stepping":
                        await self._opened(screen)
                answered(self.chance, self.depot.parts, self.walk_id, self.who, step)
                self.heard.steps += 1
            await screen.settle()
            if self.walk.here is None:
                self.heard.look(screen, *self._noted_defects())

    def _worth_a_look(self, steps: Sequence[Step], most: int) -> set[str]:
        """Of each kind of step one, then any."""
        mixed = self.chance.sample(steps, len(steps))
        kinds = {(step.kind, bool(step.items)): step.id for step in mixed}
        every = dict.fromkeys([*kinds.values(), *(step.id for step in mixed)])
        return set([*every][:most])

    def _noted_defects(self) -> list[str]:
        open_ = {defect.step for defect in self.walk.open_defects}
        return [text for id_, text in self.walk.notes.items() if id_ in open_]

    async def _step(self, screen: Screen, step: Step) -> None:
        """The step as it is asked, everything that opens over it, and how it looks half done."""
        plan, look = self.walk.plan, self.heard.look
        assert plan is not None
        self.do(note(self.chance, step))
        await screen.settle()
        known = self.depot.parts.settings()
        said = prompt(step, plan.power, known.wording, ENGLISH.shown_in(known.units))
        for width, height in ((1280, 800), (360, 640)):
            await screen.fire(screen.page, "resize", {"width": width, "height": height})
            look(screen)
        asked = (said.switch, said.see, said.explained)
        note_ = f"Note: {self.walk.notes[step.id]}"
        look(screen, said.title, *asked, said.caution, note_)
        for way in ("defect", "other", "note"):
            if not screen.has(way) or (way == "defect" and step.kind in _ANSWERS_AT_ONCE):
                continue
            await screen.click(way)
            look(screen, *([self.walk.notes[step.id]] if way == "note" else []))
            if way == "defect" and len(step.items) > 1:
                await screen.click(f"item_{self.chance.choice(step.items).id}")
                look(screen)
                await screen.click("back")
            await screen.click("back")
        if self.walk.answers:
            await screen.click("back")
            look(screen)
            await screen.click("forward")
        if step.hold:
            self.do(*begun_hold(step))
            await screen.settle()
            look(screen, said.title)

    async def _opened(self, screen: Screen) -> None:
        """What opens from the bar of a step, and what other pages show meanwhile."""
        walk, look = self.walk, self.heard.look
        words = ENGLISH.shown_in(self.depot.parts.settings().units)
        titles = {step.id: words.text(step.title) for step in walk.steps}
        for ways in (("menu", "steps"), ("menu", "end"), ("defects",)):
            for way in ways:
                if screen.has(way):
                    await screen.click(way)
                    look(screen)
            while not screen.has("again"):
                await screen.click("back")
        found = [titles[defect.step] for defect in walk.open_defects]
        look(screen, *found, *titles.values())
        await self.shows(f"/cab/{self.walk_id}", self.vehicle.name)
        await self.shows("/", self.vehicle.name)

    async def after(self) -> None:
        """Left and taken up again, closed, recorded, handed on."""
        self.do((Paused, {}))
        await self.shows(f"/walk/{self.walk_id}", self.vehicle.name)
        self.do((Resumed, {}))
        self.do((Finished, {}))
        for route in ("/", "/records", "/vehicle/strange"):
            await self.shows(route, self.vehicle.name)
        await self.shows(f"/record/{self.walk_id}", self.vehicle.name, *self._noted_defects())
        self._handed_on(self.walk)

    def _handed_on(self, walk: Walk) -> None:
        """What is written for others says the same again."""
        loaded = WalkReader(self.data).load(walk.id)
        assert (loaded.events, loaded.notice) == (walk.events, "")
        document = json.loads(walk_json(walk, ENGLISH).encode())
        assert fold(good_events(document["events"])) == walk
        rows = csv.DictReader(io.StringIO(walk_csv(walk, ENGLISH).encode().decode(), newline=""))
        steps = {step.id: step for step in walk.steps}
        for row in (row for row in rows if row["fact"] == "answer"):
            step = steps.pop(row["step"])
            given = str(step.title), walk.notes.get(step.id, ""), self.vehicle.name, step.source
            told = row["title"], row["note"], row["vehicle"], row["source"]
            assert [t.removeprefix("'") for t in told] == [g.removeprefix("'") for g in given]
        assert not steps
        own = vehicle_toml(self.vehicle).encode()
        assert self.depot.parts.own_vehicles.parse_file(own, "own.toml") == self.vehicle
