"""Reading files: one bad file never hides the others, every problem is one plain sentence."""

from __future__ import annotations

import copy
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround import locations
from walkaround.errors import InputError, Problem
from walkaround.loading import (
    checklist_of,
    connectors_from,
    file_problems,
    load_checklist,
    load_library,
    load_vehicle,
    vehicle_of,
)
from walkaround.tomlfile import read_table

TODAY = date(2025, 11, 1)
CONNECTORS = connectors_from(locations.shipped() / "connectors.toml")

VEHICLE = """
id = "trailer_7"
kind = "semitrailer"
made = 2011-04-01
width_mm = 2591
length_mm = 13716
gvwr_kg = 30000
[electrical]
volts = 12
connector = "sae_j560"
stop_turn = "separate"
[brakes]
system = "air"
reservoir_l = [60.0]
axles = [
  { actuator = "clamp", type = "30", spring = true, slack = "automatic", foundation = "drum" },
  { actuator = "clamp", type = "30", long_stroke = true, spring = true, lift = true },
]
"""
CHECKLIST = """
id = "own"
title = "Our own"
source = "the depot"
provenance = "common practice, no source"
[[step]]
id = "flaps"
part = "finish"
kind = "look"
title = "Mud flaps"
short = "Look at the mud flaps."
long = "Look at the mud flaps: both there, none torn."
spot = "rear"
source = "the depot"
provenance = "common practice, no source"
[[lamp]]
id = "work_lamp"
kind = "backup"
name = "work lamp"
plural = "work lamps"
colour = ["white"]
quantity = 1
classes = ["H"]
end = "rear"
spread = "centre"
what = "The work lamp is white."
why = "It lights the ground."
height = "any"
source = "the depot"
provenance = "common practice, no source"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one sound checklist and one sound vehicle beside the shipped connectors."""
    (tmp_path / "vehicles").mkdir()
    (tmp_path / "own.toml").write_text(CHECKLIST, encoding="utf-8")
    (tmp_path / "vehicles" / "trailer_7.toml").write_text(VEHICLE, encoding="utf-8")
    return tmp_path


def problems_in(folder: Path) -> list[str]:
    library = load_library(locations.shipped(), folder, today=TODAY)
    assert "own" in {checklist.id for checklist in library.checklists}
    assert "trailer_7" in {vehicle.id for vehicle in library.vehicles}
    return sentences(library.problems)


def sentences(problems: Iterable[Problem]) -> list[str]:
    found = [str(problem) for problem in problems]
    assert all("\n" not in sentence and sentence.endswith(".") for sentence in found)
    return found


def refused(read: Any, *args: Any) -> list[str]:
    with pytest.raises(InputError) as caught:
        read(*args)
    return sentences(caught.value.problems)


def test_everything_that_is_shipped_loads_without_a_problem() -> None:
    library = load_library(locations.shipped(), today=TODAY)
    assert library.problems == ()
    assert {vehicle.id for vehicle in library.vehicles} >= {
        "sandbag_semitrailer_7",
        "pump_trailer_3",
    }
    assert {"lamps_us_393_11", "lamps_blackout_24v"} <= {c.id for c in library.checklists}
    assert "sae_j560" in library.connectors


def test_a_folder_that_is_not_there_counts_as_empty(tmp_path: Path) -> None:
    library = load_library(tmp_path / "nowhere", today=TODAY)
    assert (library.checklists, library.vehicles, library.problems) == ((), (), ())


def test_own_files_load_beside_the_shipped_ones(folder: Path) -> None:
    assert problems_in(folder) == []


def test_each_kind_of_file_is_read_by_itself(folder: Path) -> None:
    assert load_checklist(folder / "own.toml").steps[0].id == "flaps"
    path = folder / "vehicles" / "trailer_7.toml"
    assert load_vehicle(path, CONNECTORS, TODAY).brakes.axles[1].lift


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "holds nothing; fill it in or delete it."),
        (b"# nothing yet\n", "holds nothing; fill it in or delete it."),
        (b"\x00\x01\x02ELF", "is not a text file; write it as TOML text."),
        (b'id = "x"\ntitle = "\xff"\n', "line 2: holds characters that are not UTF-8"),
        (b'id = "x"\ntitle =\n', "line 2, column 8: this is not valid TOML (Invalid value)"),
        (b'id = "x"\nid = "y"\n', "this is not valid TOML (Cannot overwrite a value)"),
        (b'id = "x', "this is not valid TOML ("),
        (b"n = " + b"9" * 5000, "this is not valid TOML ("),
        (b"a = " + b"[" * 100_000, "tables are nested too deep; flatten them."),
        (b"# " + b"x" * 1_000_001, "is larger than 1000 kB; split it into smaller files."),
    ],
    ids=[
        "empty",
        "comments only",
        "binary",
        "not utf-8",
        "no value",
        "key twice",
        "open string",
        "number too long",
        "too deep",
        "too large",
    ],
)
def test_a_file_that_cannot_be_read_is_told_and_the_others_load(
    content: bytes, said: str, folder: Path
) -> None:
    bad = folder / "bad.toml"
    bad.write_bytes(content)
    [sentence] = problems_in(folder)
    assert sentence.startswith(str(bad))
    assert said in sentence


def test_a_file_with_a_byte_order_mark_is_read(folder: Path) -> None:
    (folder / "own.toml").write_text(CHECKLIST, encoding="utf-8-sig")
    assert problems_in(folder) == []


def test_a_file_that_is_not_there_or_is_a_folder_is_told(tmp_path: Path) -> None:
    [missing] = refused(load_checklist, tmp_path / "none.toml")
    assert missing.endswith("none.toml: there is no such file; check the path.")
    [folder] = refused(load_checklist, tmp_path)
    assert "cannot be read" in folder


def test_a_file_that_may_not_be_read_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def denied(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", denied)
    [sentence] = refused(load_checklist, folder / "own.toml")
    assert "cannot be read (Permission denied); check that it is a file you may read." in sentence


def test_two_checklists_with_one_id_are_told_and_the_first_counts(folder: Path) -> None:
    again = CHECKLIST.replace("Our own", "Second").replace("work_lamp", "other_lamp")
    (folder / "zz.toml").write_text(again, encoding="utf-8")
    [sentence] = problems_in(folder)
    assert sentence == (
        f"{folder / 'zz.toml'}, id: own is already the id of {folder / 'own.toml'}; "
        "give one of them another id."
    )
    library = load_library(folder, today=TODAY)
    assert [checklist.title for checklist in library.checklists] == ["Our own"]


def test_two_vehicles_with_one_id_are_told(folder: Path) -> None:
    (folder / "vehicles" / "zz.toml").write_text(VEHICLE, encoding="utf-8")
    [sentence] = problems_in(folder)
    assert "zz.toml, id: trailer_7 is already the id of" in sentence


def test_a_lamp_rule_whose_id_another_checklist_has_is_told(folder: Path) -> None:
    again = CHECKLIST.replace('"own"', '"second"')
    (folder / "zz.toml").write_text(again, encoding="utf-8")
    [sentence] = problems_in(folder)
    assert "zz.toml, lamp work_lamp: " in sentence
    assert "give this one another id" in sentence


def test_a_connector_whose_id_is_taken_is_told(folder: Path) -> None:
    text = (locations.shipped() / "connectors.toml").read_text(encoding="utf-8")
    (folder / "plugs.toml").write_text(text, encoding="utf-8")
    found = problems_in(folder)
    assert len(found) == len(CONNECTORS)
    assert "plugs.toml, id: sae_j560 is already the id of" in found[0]


def test_a_connector_that_stands_twice_in_one_file_is_told(tmp_path: Path) -> None:
    path = tmp_path / "plugs.toml"
    text = (locations.shipped() / "connectors.toml").read_text(encoding="utf-8")
    path.write_text(text.replace('id = "iso_1185"', 'id = "sae_j560"'), encoding="utf-8")
    assert refused(connectors_from, path) == [
        f"{path}, connector sae_j560: stands twice; give each its own id."
    ]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("width_mm = 2591", "widht_mm = 2591", "widht_mm: there is no such key; perhaps width_mm"),
        ("width_mm = 2591", "", "width_mm: is missing; add the key width_mm."),
        ("width_mm = 2591", "width_mm = -2591", "width_mm: is -2591; write a number above 0."),
        ("width_mm = 2591", 'width_mm = "8 ft"', 'width_mm: is "8 ft" where a number is needed'),
        ("sae_j560", "sae_j650", "no connector is called sae_j650; perhaps sae_j560 is meant."),
        ('"drum"', '"drums"', "brakes.axles 1.foundation: is"),
        ("2011-04-01", "2011-02-30", "this is not valid TOML ("),
        ("gvwr_kg", 'vin = "X"\ngvwr_kg', "vin: the VIN has 1 characters, 17 expected"),
    ],
)
def test_each_fault_of_a_vehicle_file_names_file_key_and_mend(
    old: str, new: str, said: str, folder: Path
) -> None:
    bad = folder / "vehicles" / "bad.toml"
    bad.write_text(VEHICLE.replace(old, new, 1), encoding="utf-8")
    found = problems_in(folder)
    assert all(sentence.startswith(f"{bad}, ") for sentence in found)
    assert any(said in sentence for sentence in found)


def test_all_problems_of_a_vehicle_file_are_told_at_once(folder: Path) -> None:
    bad = folder / "vehicles" / "trailer_7.toml"
    text = VEHICLE.replace("width_mm = 2591", "width_mm = -1\ncolour = 3\nvin = 'X'")
    text = text.replace('"sae_j560"', '"sae"').replace("2011-", "2031-").replace("true", "1")
    bad.write_text(text, encoding="utf-8")
    keys = {problem.key for problem in file_problems(bad, CONNECTORS, TODAY)}
    assert keys == {
        "width_mm",
        "colour",
        "vin",
        "made",
        "electrical.connector",
        "brakes.axles 1.spring",
        "brakes.axles 2.long_stroke",
        "brakes.axles 2.spring",
        "brakes.axles 2.lift",
    }


def test_faults_of_shape_do_not_hide_faults_of_sense_in_a_checklist(folder: Path) -> None:
    bad = folder / "own.toml"
    sound = CHECKLIST.replace("quantity = 1", "quantity = 2")
    bad.write_text(sound.replace('part = "finish"', 'part = "end"'), encoding="utf-8")
    keys = [problem.key for problem in file_problems(bad, CONNECTORS, TODAY)]
    assert keys == ["step 1.part", "lamp work_lamp.quantity"]


def test_what_stands_in_for_a_missing_key_is_never_told(folder: Path) -> None:
    bad = folder / "vehicles" / "trailer_7.toml"
    bad.write_text('id = "x"\n', encoding="utf-8")
    problems = file_problems(bad, CONNECTORS, TODAY)
    assert {problem.what for problem in problems} == {"is missing"}


def test_the_problems_of_any_sound_file_are_none(folder: Path) -> None:
    for path in (
        folder / "own.toml",
        folder / "vehicles" / "trailer_7.toml",
        locations.shipped() / "connectors.toml",
    ):
        assert file_problems(path, CONNECTORS, TODAY) == ()


def test_a_vehicle_file_is_known_by_its_electrical_table_wherever_it_lies(tmp_path: Path) -> None:
    path = tmp_path / "seven.toml"
    path.write_text(VEHICLE.replace("2591", "-1"), encoding="utf-8")
    [problem] = file_problems(path, CONNECTORS, TODAY)
    assert problem.key == "width_mm"


def test_a_file_that_cannot_be_read_has_one_problem(tmp_path: Path) -> None:
    [problem] = file_problems(tmp_path / "none.toml", CONNECTORS, TODAY)
    assert problem.what == "there is no such file"


SCALARS = (
    st.booleans()
    | st.integers()
    | st.just(10**400)
    | st.floats()
    | st.text(max_size=20)
    | st.sampled_from(["", "{axle}", "{", "}", "tail", "hold", "supply", "2011-04-01"])
    | st.dates()
    | st.datetimes()
    | st.times()
)
NAMES = st.text(max_size=8) | st.sampled_from(
    ["id", "step", "lamp", "kind", "hold", "applies", "made", "electrical", "brakes", "axles"]
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES, inner, max_size=3),
    max_leaves=8,
)


def table_of(text: str, folder: Path) -> dict[str, Any]:
    path = folder / "t.toml"
    path.write_text(text, encoding="utf-8")
    return read_table(path)


@pytest.fixture(scope="module")
def sound_tables(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Any]]:
    folder = tmp_path_factory.mktemp("sound")
    return {"vehicle": table_of(VEHICLE, folder), "checklist": table_of(CHECKLIST, folder)}


def spoilt(table: dict[str, Any], data: st.DataObject) -> dict[str, Any]:
    """A sound table with some values, at any depth, replaced, added or taken out."""
    table = copy.deepcopy(table)
    for _ in range(data.draw(st.integers(1, 3))):
        place: Any = table
        while True:
            keys = list(place) if isinstance(place, dict) else list(range(len(place)))
            if not keys:
                break
            key = data.draw(st.sampled_from(keys))
            if isinstance(place[key], dict | list) and place[key] and data.draw(st.booleans()):
                place = place[key]
                continue
            match data.draw(st.sampled_from(["replace", "remove", "add"])):
                case "replace":
                    place[key] = data.draw(VALUES)
                case "remove":
                    del place[key]
                case _ if isinstance(place, dict):
                    place[data.draw(NAMES)] = data.draw(VALUES)
            break
    return table


def only_plain_problems(read: Any, *args: Any) -> None:
    problems: tuple[Problem, ...] | None = None
    try:
        read(*args)
    except InputError as error:
        problems = error.problems
    assert problems is None or problems
    for problem in problems or ():
        assert problem.where == "f.toml"
        assert problem.what
        assert problem.mend


@given(data=st.data())
def test_a_spoilt_vehicle_table_gives_a_vehicle_or_plain_problems(
    data: st.DataObject, sound_tables: dict[str, dict[str, Any]]
) -> None:
    table = spoilt(sound_tables["vehicle"], data)
    only_plain_problems(vehicle_of, table, "f.toml", CONNECTORS, TODAY)


@given(data=st.data())
def test_a_spoilt_checklist_table_gives_a_checklist_or_plain_problems(
    data: st.DataObject, sound_tables: dict[str, dict[str, Any]]
) -> None:
    only_plain_problems(checklist_of, spoilt(sound_tables["checklist"], data), "f.toml")


@given(st.dictionaries(NAMES, VALUES, max_size=5))
def test_any_table_at_all_gives_plain_problems(table: dict[str, Any]) -> None:
    only_plain_problems(vehicle_of, table, "f.toml", CONNECTORS, TODAY)
    only_plain_problems(checklist_of, table, "f.toml")


def test_every_path_of_the_data_folder_lies_in_it(tmp_path: Path) -> None:
    assert locations.data_dir(tmp_path) == tmp_path
    assert locations.data_dir(None).name == "walkaround"
    for place in (
        locations.walks,
        locations.index,
        locations.speech,
        locations.own_checklists,
        locations.settings,
        locations.logs,
    ):
        assert place(tmp_path).parent == tmp_path
    assert locations.assets().is_dir()
