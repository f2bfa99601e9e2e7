"""Files from strangers: each limit in one sentence, and forty drawn ones of each kind.

The long check, ten thousand of each with a limit of time, is in tests/soak.
"""

from __future__ import annotations

import gzip
import io
import os
import re
import tarfile
import threading
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.made_up_vehicles import TODAY
from support.strangers import as_toml
from support.taking import House, kinds, library, offer, shipped_tables

from walkaround.base.errors import InputError
from walkaround.disk import locations
from walkaround.library.load import checklist_of, connectors_of, file_problems, power_sources_of
from walkaround.library.validate import MOST_PROBLEMS
from walkaround.plan.plan_walk import plan_walk
from walkaround.words.pronunciation import pronounced

OFFERED = 40

VEHICLE: dict[str, Any] = {
    **shipped_tables("vehicles/flood_semitrailer_12v.toml")[0],
    "id": "offered",
    "name": "Offered 1",
}
AXLE: dict[str, Any] = VEHICLE["brakes"]["axles"][0]


@pytest.fixture
def house(tmp_path: Path) -> House:
    return House(tmp_path).built()


def vehicle(**changes: Any) -> dict[str, Any]:
    """The sound vehicle with other values; `brakes_axles` stands for the key inside a table."""
    table = {**VEHICLE, "brakes": dict(VEHICLE["brakes"]), "electrical": VEHICLE["electrical"]}
    for key, value in changes.items():
        outer, _, inner = key.partition("__")
        table[outer] = {**table[outer], inner: value} if inner else value
    return table


def refusal(house: House, table: dict[str, Any]) -> list[str]:
    with pytest.raises(InputError) as caught:
        house.own_vehicles.parse_file(as_toml(table), "offered.toml")
    return str(caught.value).splitlines()


@pytest.mark.parametrize("kind", kinds())
def test_a_strangers_file_is_refused_in_a_sentence_or_can_be_used(
    kind: str, tmp_path: Path
) -> None:
    tally = offer(kind, tmp_path, OFFERED)
    assert tally.offered >= OFFERED


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"brakes__axles": [AXLE] * 25}, "brakes.axles: stands 25 times, 24 at most; keep what"),
        ({"brakes__reservoir_l": [40] * 25}, "brakes.reservoir_l: stands 25 times, 24 at most;"),
        ({"brakes__reservoir_l": [40, 9e5]}, "brakes.reservoir_l 2: is 900000, not the volume of"),
        ({"brakes__axles": [AXLE | {"type": "3" * 21}]}, "brakes.axles 1.type: has 21 characters,"),
        ({"damage": ["Dented."] * 31}, "damage: stands 31 times, 30 at most; keep what the"),
        ({"damage": ["x" * 201]}, "damage 1: has 201 characters, 200 at most; say it shorter."),
        ({"name": "x" * 61}, "name: has 61 characters, 60 at most; say it shorter."),
        ({"plate": "x" * 21}, "plate: has 21 characters, 20 at most; say it shorter."),
        ({"notes": "x" * 2001}, "notes: has 2001 characters, 2000 at most; say it shorter."),
        ({"width_mm": 1e300}, "width_mm: is 1e+300, not the size of a road vehicle; write a"),
        ({"length_mm": 10**400}, "length_mm: is "),
        ({"gvwr_kg": float("nan")}, "gvwr_kg: is nan; write a number above 0."),
        ({"made": "1899-12-31"}, "made: is 1899-12-31, before there were such vehicles; correct"),
        ({"made": "9999-12-31"}, "made: is 9999-12-31, a day to come; correct the date of make."),
        ({"name": "Pump\u202etrailer"}, "name: holds U+202E RIGHT-TO-LEFT OVERRIDE, which is not"),
        ({"plate": "\x1b[2J"}, "plate: holds U+001B, which is not seen; take that character out."),
        ({"damage": ["a\nb"]}, "damage 1: holds a line break or a tab; write it in one line, with"),
        ({"id": "../../beside"}, 'id: is "../../beside" where a plain id is needed; write small'),
        ({"id": "C:\\con"}, 'id: is "C:\\con" where a plain id is needed; write small letters,'),
    ],
)
def test_a_vehicle_with_too_much_of_anything_is_refused_in_one_sentence(
    changes: dict[str, Any], sentence: str, house: House
) -> None:
    [found] = refusal(house, vehicle(**changes))
    assert found.startswith(f"offered.toml, {sentence}")


def test_the_largest_vehicle_there_may_be_is_taken_and_planned(house: House) -> None:
    largest = vehicle(
        length_mm=60_000,
        width_mm=6_000,
        brakes__axles=[AXLE] * 24,
        brakes__reservoir_l=[40] * 24,
        damage=["x" * 200] * 30,
        name="x" * 60,
        notes="x" * 2000,
    )
    taken = house.own_vehicles.parse_file(as_toml(largest), "offered.toml")
    plan = plan_walk(taken, library().rules)
    assert len({step.id for step in plan.steps}) == len(plan.steps)


@pytest.mark.parametrize(
    "id_", ["con", "nul", "com1", "lpt9", "new", "a" * 300, "removed", "prn", "a__b", "_"]
)
def test_whatever_its_id_a_vehicle_is_saved_in_the_folder_of_the_vehicles(
    id_: str, house: House
) -> None:
    before = house.outside()
    taken = house.own_vehicles.parse_file(as_toml(vehicle(id=id_)), "../../offered.toml")
    saved = house.own_vehicles.save(taken, keep_id=True)
    [path] = (house.data / "vehicles").glob("*.toml")
    assert (path.stem, path.is_file()) == (saved, True)
    # What Windows keeps for devices: naming files, paths and namespaces, its own manual.
    assert saved not in {"con", "prn", "aux", "nul", "new", *(f"com{n}" for n in range(10))}
    assert len(path.name) <= 60
    assert house.outside() == before


@pytest.mark.parametrize("name", ["../..", "/etc/x", "C:\\x", ".", "com1", "~", "水", "x" * 60])
def test_whatever_its_name_a_vehicle_is_saved_under_a_plain_id(name: str, house: House) -> None:
    made = house.own_vehicles.parse_file(as_toml(VEHICLE), "offered.toml")
    saved = house.own_vehicles.save(made.model_copy(update={"name": name}))
    assert re.fullmatch(r"[a-z0-9_]{1,50}", saved)
    assert [path.stem for path in (house.data / "vehicles").glob("*.toml")] == [saved]


def test_of_very_many_problems_the_first_are_told_and_how_many_there_are(house: House) -> None:
    lines = refusal(house, {**VEHICLE, **{f"odd_{n}": n for n in range(300)}})
    assert len(lines) == MOST_PROBLEMS + 1
    assert lines[-1].startswith("offered.toml: has 260 more problems; mend these first,")
    assert len(refusal(house, {f"{n}" * 900: n for n in range(9)})[-1]) < 400


def step(**changes: Any) -> dict[str, Any]:
    fields = {"id": "look", "part": "seen", "kind": "look", "title": "Look", "spot": "rear"}
    texts = {"short": "Look.", "long": "Look at it.", "source": "shop", "provenance": "memory"}
    return {**fields, **texts, **changes}


def checklist(*steps: dict[str, Any], **changes: Any) -> dict[str, Any]:
    head = {"id": "own", "title": "Own", "source": "shop", "provenance": "memory"}
    return {**head, "step": list(steps), **changes}


MEASURED = {"kind": "measure", "measure": {"quantity": "psi", "of": ["supply"]}}
LIMIT = {"id": "a", "at_least": 1, "source": "shop", "provenance": "memory"}
SWITCH = {"id": "a", "name": "a", "position": [{"id": "on", "name": "on", "say": "on"}]}
POWER = {"id": "own", "title": "own", "where": "spot", "source": "shop", "provenance": "memory"}
PIN = {"pin": "1", "fn": "TAIL", "function": "tail", "p": "r"}
PLUG = shipped_tables("connectors.toml")[0]["connector"][0]


@pytest.mark.parametrize(
    ("read", "table", "sentence"),
    [
        (checklist_of, checklist(*[step()] * 151), "step: stands 151 times, 150 at most; split"),
        (
            checklist_of,
            checklist(step(**MEASURED, limit=[LIMIT] * 21)),
            "step look.limit: stands 21 times, 20 at most;",
        ),
        (
            checklist_of,
            checklist(step(**MEASURED, limit=[LIMIT | {"at_most": 1e8}])),
            "step look.limit a.at_most: is 1e+08; write 5000 at most.",
        ),
        (
            checklist_of,
            checklist(step(), step(id="w", kind="wait", wait={"after": "look", "seconds": 1e8})),
            "step w.wait.seconds: is 1e+08; write 86400 at most.",
        ),
        (
            checklist_of,
            checklist(step(short="Look }.")),
            "step look.short: nothing fills the placeholder }; use one of ",
        ),
        (
            checklist_of,
            checklist(step(title="{volts.__class__}")),
            "step look.title: nothing fills the placeholder {volts.__class__}; use one of ",
        ),
        (
            checklist_of,
            checklist(step(title="a\u2066b")),
            "step 1.title: holds U+2066 LEFT-TO-RIGHT ISOLATE, which is not seen; take that",
        ),
        (
            power_sources_of,
            {"power_source": [POWER | {"each_circuit": True}] * 31},
            "power_source: stands 31 times, 30 at most; keep what is used.",
        ),
        (
            power_sources_of,
            {"power_source": [POWER | {"switch": [SWITCH] * 31}]},
            "power_source own.switch: stands 31 times, 30 at most;",
        ),
        (
            connectors_of,
            {"connector": [PLUG | {"pins": [PIN] * 61}]},
            f"connector {PLUG['id']}.pins: stands 61 times, 60 at most;",
        ),
        (connectors_of, {"connector": [PLUG] * 101}, "connector: stands 101 times, 100 at most;"),
    ],
)
def test_a_checklist_with_too_much_of_anything_is_refused_in_one_sentence(
    read: Callable[[dict[str, Any], str], object], table: dict[str, Any], sentence: str
) -> None:
    with pytest.raises(InputError) as caught:
        read(table, "own.toml")
    [found] = str(caught.value).splitlines()
    assert found.startswith(f"own.toml, {sentence}")


def test_of_two_steps_with_one_id_in_two_files_the_first_counts() -> None:
    shipped = library().rules
    [first, second] = [
        checklist_of(checklist(step(title=title), id=title.lower()), "own.toml")
        for title in ("First", "Second")
    ]
    rules = type(shipped)(
        (*shipped.checklists, first, second),
        shipped.connectors,
        shipped.power_sources,
        shipped.strokes,
    )
    plan = plan_walk(library().vehicles[0], rules)
    assert [str(each.title) for each in plan.steps if each.id == "look"] == ["First"]


def archives() -> dict[str, bytes]:
    """A vehicle's text packed in each way, and a bomb: ten megabytes of nothing in a few kB."""
    zipped, tarred = io.BytesIO(), io.BytesIO()
    with zipfile.ZipFile(zipped, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("../../beside.toml", as_toml(VEHICLE))
    with tarfile.open(fileobj=tarred, mode="w") as tar:
        tar.addfile(tarfile.TarInfo("../../beside.toml"), io.BytesIO())
    bomb = gzip.compress(bytes(10_000_000))
    return {"zip": zipped.getvalue(), "gzip": bomb, "tar": tarred.getvalue()}


@pytest.mark.parametrize("kind", archives())
def test_no_archive_is_opened(kind: str, house: House) -> None:
    before = house.outside()
    with pytest.raises(InputError, match=r"^offered.toml: is not a text file; write it as TOML"):
        house.own_vehicles.parse_file(archives()[kind], "offered.toml")
    assert house.outside() == before


@pytest.mark.skipif(os.name != "posix", reason="named pipes are made by POSIX systems")
def test_a_pipe_or_a_device_is_no_file_to_wait_for(house: House) -> None:
    pipe = house.data / "checklists" / "pipe.toml"
    os.mkfifo(pipe)
    done = threading.Event()

    def check() -> None:
        for path in (pipe, Path("/dev/zero"), house.data):
            with pytest.raises(InputError, match="cannot be read"):
                file_problems([path], locations.shipped(), TODAY)
        done.set()

    threading.Thread(target=check, daemon=True).start()
    assert done.wait(30)


# W3C, Speech Synthesis Markup Language 1.1; phonemes in [[ ]] are in espeak's own manual.
@pytest.mark.parametrize(
    "text",
    [
        "<speak>Pump<break time='9s'/>3</speak>",
        "[[h@'loU]] pump",
        "&lt;break/&gt;",
        "<audio src='http://x'/>",
        "\uff1cspeak\uff1e \u2039break\u203a",
        "<![CDATA[x]]><?xml?>",
        "Pump\x01\x02 trailer \x1b[2J",
    ],
)
def test_no_markup_of_a_speech_engine_is_left_in_what_is_said(text: str) -> None:
    assert not set(pronounced(text)) & set('<>[]&{}"/\\|=\x01\x02\x1b')


@given(st.text())
def test_nothing_that_is_said_is_markup(text: str) -> None:
    assert not set(pronounced(f"[[{text}]] <{text}>")) & set('<>[]&{}"/\\|=\x00\x1b')
