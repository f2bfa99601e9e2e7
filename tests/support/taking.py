"""What the app does with each kind of file from a stranger, and what may never come of it.

Each function hands one file to the very functions that the app hands it to, then uses what was
accepted. Refusals are sentences; anything else that is raised goes through to the test.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from shutil import copyfile
from time import perf_counter
from typing import Any, get_args

from hypothesis import HealthCheck, given, settings
from support.english import ENGLISH
from support.made_up_vehicles import TODAY
from support.sealing import resealed as row_resealed
from support.strangers import as_json, as_toml, files
from support.walks import WALK_ID, begun, small_events, some_events

from walkaround.airhold.readings import log_of
from walkaround.airhold.verdict import assess
from walkaround.base.errors import InputError, WalkaroundError
from walkaround.base.plaintext import is_hidden
from walkaround.cli_output import check_text, plan_document, plan_text, wiring_text
from walkaround.cli_walks import walks_document, walks_text
from walkaround.disk import locations
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.lamps.wiring_document import wiring_document
from walkaround.library.load import file_problems, load_library, load_vehicle, reference_of
from walkaround.library.own_vehicles import OwnVehicles
from walkaround.library.standard_tables import standard_tables
from walkaround.library.toml_file import file_bytes
from walkaround.plan.plan_walk import plan_walk
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.report.json_document import walk_json
from walkaround.report.tables import walk_csv
from walkaround.rules.checklist import Wording
from walkaround.settings import Settings
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.checks import Reference
from walkaround.walk.advance import fold
from walkaround.walk.events import Event
from walkaround.walk.seals import event_json
from walkaround.words.prompts import prompt
from walkaround.words.pronunciation import pronounced

PART = (
    "connectors.toml", "power_sources.toml", "lamps_us_393_11.toml", "air_brakes_trailer.toml",
    "vehicles/flood_semitrailer_12v.toml", "vehicles/tool_trailer_12v.toml",
)  # fmt: skip
WALK_PATH = Path("walks") / f"{WALK_ID[:4]}-{WALK_ID[4:6]}" / f"{WALK_ID}.json"


@dataclass(frozen=True)
class House:
    """A folder with the data folder in it, and beside that what no file may change."""

    root: Path

    @property
    def data(self) -> Path:
        return self.root / "data"

    @cached_property
    def own_vehicles(self) -> OwnVehicles:
        return OwnVehicles(self.data, lambda: TODAY, lambda: ())

    @property
    def shipped(self) -> Path:
        """A part of what comes with the app, enough to plan walks from and quick to read."""
        return self.root / "shipped"

    def built(self) -> House:
        for folder in (self.data / "checklists", self.data / "vehicles", self.root / "beside"):
            folder.mkdir(parents=True)
        (self.shipped / "vehicles").mkdir(parents=True)
        for name in PART:
            copyfile(locations.shipped() / name, self.shipped / name)
        (self.data / WALK_PATH).parent.mkdir(parents=True)
        (self.root / "beside" / "sentinel").write_text("untouched")
        return self

    def outside(self) -> dict[str, tuple[int, bytes]]:
        """Everything in the folder but the data folder: when it changed, and what it holds."""
        found = [path for path in self.root.rglob("*") if self.data not in (path, *path.parents)]
        return {
            str(path): (path.stat().st_mtime_ns, path.read_bytes() if path.is_file() else b"")
            for path in (*found, self.root)
        }


ValueTaps = Callable[[House, bytes], bool]
"""Gives whether the file was accepted."""


@cache
def library() -> Any:
    return load_library(locations.shipped(), today=TODAY)


@cache
def reference() -> Reference:
    return reference_of(library().checklists, library().connectors, TODAY)


def take_vehicle(house: House, data: bytes) -> bool:
    """Through the screen's import, then saved; and through the command line's `steps`."""
    path = house.root / "data" / "loaded.toml"
    path.write_bytes(data)
    with suppress(WalkaroundError):
        use_vehicle(load_vehicle(path, reference()))
    own_vehicles = house.own_vehicles
    try:
        vehicle = own_vehicles.parse_file(data, "offered.toml")
        id_ = own_vehicles.save(vehicle, keep_id=True)
    except WalkaroundError as error:
        assert_one_sentence_a_line(error)
        return False
    saved = own_vehicles.library.vehicle_files[id_]
    assert saved.parent == house.data / "vehicles"
    use_vehicle(vehicle)
    own_vehicles.remove(id_)
    return True


def use_vehicle(vehicle: Vehicle) -> None:
    """What is accepted is planned, wired, listed and said."""
    lamps = lamps_for(vehicle, library().checklists)
    wiring = wire(vehicle, lamps, library().connectors)
    wiring_text(wiring_document(vehicle, lamps, wiring, standard_tables().bulbs), ENGLISH)
    for together in (True, False):
        plan = plan_walk(vehicle, library().rules, together=together)
    plan_text(plan_document(plan, library(), ENGLISH), ENGLISH)
    assert not any(is_hidden(c) for c in vehicle.name + vehicle.plate)


def take_checklist(house: House, data: bytes) -> bool:
    """Through `check`, then lying in the data folder: the other files are still there."""
    path = house.data / "checklists" / "offered.toml"
    path.write_bytes(data)
    try:
        found = file_problems([path], house.shipped, TODAY)
    except InputError as error:
        assert_one_sentence_a_line(error)
        return False
    assert check_text(found, ENGLISH).count("\n") == max(0, len(found) - 1)
    loaded = load_library(house.shipped, house.data / "checklists", today=TODAY)
    assert len(loaded.connectors) >= len(library().connectors)
    # Lamps that a vehicle's connector cannot feed keep the vehicle out, with a sentence.
    assert len(loaded.vehicles) == 2 or loaded.problems
    if found:
        return False
    for vehicle in loaded.vehicles:
        for power in loaded.power_sources:
            with suppress(WalkaroundError):
                plan_walk(vehicle, loaded.rules, power=power)
    return True


def take_log(house: House, data: bytes) -> bool:
    path = house.data / "log.csv"
    path.write_bytes(data)
    try:
        assess(log_of(file_bytes(path), str(path)).readings, 2.0, 1.0, 0.25)
    except WalkaroundError as error:
        assert_one_sentence_a_line(error)
        return False
    return True


def take_walk(house: House, data: bytes) -> bool:
    """A record put among the walks: listed, opened, told and handed on."""
    (house.data / WALK_PATH).write_bytes(data)
    reader = WalkReader(house.data)
    [line] = reader.overview().lines
    walks_text(walks_document([line]), ENGLISH)
    try:
        events = reader.load(WALK_ID).events
        walk = fold(events)
    except WalkaroundError:
        return False
    if walk.plan is None:
        return False
    walk_csv(walk, ENGLISH)
    json.loads(walk_json(walk, ENGLISH))
    for step in walk.plan.steps[:5]:
        for wording in get_args(Wording):
            pronounced(prompt(step, walk.plan.power, wording, ENGLISH).say)
    return True


def take_settings(house: House, data: bytes) -> bool:
    (house.data / "settings.json").write_bytes(data)
    store = WalkStore(house.data)
    try:
        values = store.load_settings()
        taken = Settings.saved(values)
        store.change_settings(taken.model_dump(mode="json"))
        assert Settings.saved(store.load_settings()) == taken
    finally:
        store.close()
        for aside in house.data.glob("settings.json.damaged*"):
            aside.unlink()
    return bool(values)


def assert_one_sentence_a_line(error: WalkaroundError) -> None:
    lines = str(error).splitlines()
    assert all(line.endswith(".") for line in lines), error
    assert not any(is_hidden(c) for line in lines for c in line), error


def resealed(tree: Any) -> bytes:
    """A walk's file whose rows fit together: the chain has no key, a stranger can make one."""
    rows = tree.get("events") if isinstance(tree, dict) else None
    if not isinstance(rows, list):
        return as_json(tree)
    link: str = "0" * 64
    kept: list[dict[str, Any]] = []
    for row in rows:
        if not isinstance(row, dict):
            return as_json(tree)
        try:
            kept.append(row_resealed(json.loads(as_json(row)), link))
        except ValueError:
            return as_json(tree)
        link = kept[-1]["digest"]
    about = {"schema": 1, "form": "walkaround walk, schema 1", "damage": ""}
    numbered = {str(number): row for number, row in enumerate(kept, 1)}
    return as_json({"about": {"1": about}, "events": numbered})


def walk_rows(events: Sequence[Event]) -> dict[str, Any]:
    return {"events": [event_json(event) for event in events]}


def shipped_tables(*names: str) -> list[Any]:
    return [tomllib.loads((locations.shipped() / name).read_text("utf-8")) for name in names]


SETTINGS = Settings(who="Ana", names=("Ana", "Kim"), altitude_m=120.0)
LOGS: list[Any] = [
    [["seconds", "psi"], *([t, 110 - t / 60] for t in range(0, 61, 10))],
    [["", "seconds", "psi"], [1, "0", "110,5"], [2, "60", "109,0"], [3, "120", "108"]],
]


@dataclass(frozen=True)
class Kind:
    """A kind of file: how strangers make it, and what takes it."""

    take: ValueTaps
    offered: Any


def own_vehicles() -> list[Any]:
    """The shipped vehicles under ids and names of their own."""
    names = sorted(path.name for path in (locations.shipped() / "vehicles").glob("*.toml"))
    tables = shipped_tables(*(f"vehicles/{name}" for name in names))
    return [
        {**table, "id": f"own_{table['id']}", "name": f"Own {number}"}
        for number, table in enumerate(tables)
    ]


def small_checklists() -> list[Any]:
    """A few steps and lamps of shipped checklists, under ids of their own."""
    names = ("lamps_blackout_24v.toml", "air_brakes_trailer.toml", "lamps_us_393_11.toml")
    found = []
    for number, table in enumerate(shipped_tables(*names)):
        lamps = [{**lamp, "id": f"own_{lamp['id']}"} for lamp in table.get("lamp", [])[:4]]
        steps = [s for s in table.get("step", []) if not s.get("wait")][4:9]
        kept = {k: v for k, v in table.items() if k not in ("lamp", "step", "chosen")}
        found.append({**kept, "id": f"own_{number}", "lamp": lamps, "step": steps})
    return found


def small_connectors() -> list[Any]:
    [table] = shipped_tables("connectors.toml")
    few = [
        {**{k: v for k, v in plug.items() if k != "shares_shell"}, "id": f"own_{plug['id']}"}
        for plug in table["connector"][:2]
    ]
    return [{"connector": few}]


def small_powers() -> list[Any]:
    [table] = shipped_tables("power_sources.toml")
    few = [{**source, "id": f"own_{source['id']}"} for source in table["power_source"]]
    return [{"power_source": [s for s in few if not s.get("switches_of")]}]


@cache
def kinds() -> dict[str, Kind]:
    walks = [walk_rows(small_events()), walk_rows(some_events()), walk_rows(begun().walk.events)]
    saved = {"settings": {"1": {"schema": 1, "values": SETTINGS.model_dump(mode="json")}}}
    return {
        "vehicle": Kind(take_vehicle, files(own_vehicles(), as_toml)),
        "checklist": Kind(take_checklist, files(small_checklists(), as_toml)),
        "connectors": Kind(take_checklist, files(small_connectors(), as_toml)),
        "power sources": Kind(take_checklist, files(small_powers(), as_toml)),
        "hold log": Kind(take_log, files(LOGS, _as_log)),
        "walk": Kind(take_walk, files(walks, resealed)),
        "settings": Kind(take_settings, files([saved], as_json)),
    }


def _as_log(tree: Any) -> bytes:
    rows = tree if isinstance(tree, list) else [tree]
    cells = [row if isinstance(row, list) else [row] for row in rows]
    return "\r\n".join(";".join(map(str, row)) for row in cells).encode("utf-8", "surrogatepass")


@dataclass
class Tally:
    """How many files of a kind were offered and accepted, and which took longest."""

    kind: str
    offered: int = 0
    accepted: int = 0
    slowest_s: float = 0.0

    def __str__(self) -> str:
        return (
            f"{self.kind}: {self.offered} offered, {self.accepted} accepted, "
            f"slowest {self.slowest_s:.2f} s"
        )


def offer(kind: str, root: Path, count: int, most_s: float | None = None) -> Tally:
    """Offer so many files of a kind; fails on anything but a sentence, and after `most_s`."""
    house = House(root).built()
    before = house.outside()
    tally = Tally(kind)
    of = kinds()[kind]

    def timed(data: bytes) -> tuple[bool, float]:
        began_s = perf_counter()
        return of.take(house, data), perf_counter() - began_s

    @settings(
        max_examples=count, deadline=None, database=None, suppress_health_check=list(HealthCheck)
    )
    @given(data=of.offered)
    def one(data: bytes) -> None:
        accepted, took_s = timed(data)
        # A slow file is slow each time; a busy machine is not.
        for _ in range(2 if most_s and took_s > most_s else 0):
            took_s = min(took_s, timed(data)[1])
        tally.offered += 1
        tally.accepted += accepted
        tally.slowest_s = max(tally.slowest_s, took_s)
        assert most_s is None or took_s <= most_s, f"{kind}: {took_s:.2f} s"

    one()
    assert house.outside() == before
    return tally
