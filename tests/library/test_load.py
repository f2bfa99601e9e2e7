"""Reading files: one bad file never hides the others, every problem is one plain sentence."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.base.errors import InputError, Problem
from walkaround.disk import locations
from walkaround.library.load import (
    checklist_of,
    file_problems,
    load_files,
    load_library,
    load_vehicle,
    reference_of,
    vehicle_of,
)
from walkaround.library.toml_file import read_table
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.vehicle.model import vehicle_class

TODAY = date(2025, 11, 1)
SHIPPED = locations.shipped()
_LIBRARY = load_library(SHIPPED, today=TODAY)
CONNECTORS, CHECKLISTS = _LIBRARY.connectors, _LIBRARY.checklists
REFERENCE = reference_of(CHECKLISTS, CONNECTORS, TODAY)

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
        "tool_trailer_12",
        "depot_tractor_2",
        "dolly_4",
        "high_water_truck_1",
        "pontoon_trailer_9",
    }
    assert {c.id for c in library.checklists} >= {
        "lamps_us_393_11",
        "lamps_us_abs_tape",
        "lamps_unece_r48_trailers",
        "lamps_blackout_24v",
    }
    assert "sae_j560" in library.connectors


@pytest.mark.parametrize("power", ["box", "cab", "helper"])
def test_every_shipped_vehicle_is_wired_and_has_a_whole_walk(power: str) -> None:
    library = load_library(locations.shipped(), today=TODAY)
    assert len(library.vehicles) >= 7
    for vehicle in library.vehicles:
        if power not in powers_for(vehicle, library.power_sources):
            continue
        plan = plan_walk(vehicle, library.rules, power=power)
        assert any(step.kind == "lamp" for step in plan.steps), vehicle.id


def test_the_depot_shows_every_class_of_vehicle_with_lamps_of_its_own() -> None:
    library = load_library(locations.shipped(), today=TODAY)
    assert {vehicle_class(vehicle) for vehicle in library.vehicles} >= set("BCDEF")


def test_a_folder_that_is_not_there_counts_as_empty(tmp_path: Path) -> None:
    library = load_library(tmp_path / "nowhere", today=TODAY)
    assert (library.checklists, library.vehicles, library.problems) == ((), (), ())


def test_own_files_load_beside_the_shipped_ones(folder: Path) -> None:
    assert problems_in(folder) == []


def test_each_kind_of_file_is_read_by_itself(folder: Path) -> None:
    [own] = load_files([folder / "own.toml"], today=TODAY).checklists
    assert own.steps[0].id == "flaps"
    path = folder / "vehicles" / "trailer_7.toml"
    assert load_vehicle(path, REFERENCE).brakes.axles[1].lift


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
        (
            b"n = " + b"9" * 5000,
            "holds a number of thousands of digits; write one of ordinary size.",
        ),
        (b".".join([b"a"] * 50_000) + b" = 1", "line 1: a key has too many parts; flatten the"),
        (b"a = 1\n[" + b'"b" . ' * 20 + b"c]", "line 2: a key has too many parts; flatten the"),
        (b"a = " + b"[" * 100_000, "tables are nested too deep; flatten them."),
        (b"# " + b"x" * 400_001, "is larger than 400 kB; split it into smaller files."),
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
        "key too long",
        "header too long",
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
    [missing] = refused(read_table, tmp_path / "none.toml")
    assert missing.endswith("none.toml: there is no such file; check the path.")
    [folder] = refused(read_table, tmp_path)
    assert "cannot be read" in folder


def test_a_file_that_may_not_be_read_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def denied(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", denied)
    [sentence] = refused(read_table, folder / "own.toml")
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
    path.write_text(text.replace('id = "iso_1724"', 'id = "iso_3732"'), encoding="utf-8")
    [problem] = load_files([path], today=TODAY).problems
    assert str(problem) == f"{path}, connector iso_3732: stands twice; give each its own id."


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
    keys = {problem.key for problem in file_problems([bad], SHIPPED, TODAY)}
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


# One fault of each sort; the VIN's zero in place 12 is written as the letter.
FULL_OF_FAULTS = """
id = "bad"
kind = "semitrailer"
made = 2031-04-01
width_mm = -2591
length_mm = 13716
boat = true
vin = "1M8GDM9AXKPO42788"
rules = "un"
[electrical]
volts = 12
connector = "iso_1185"
[electrical.bulbs]
stop = "1683"
tail = "1175"
[[electrical.lamps]]
id = "licence_plate"
circuit = "fog"
[brakes]
system = "air"
axles = [{ actuator = "clamp", type = "31" }]
"""


def test_each_of_many_faults_is_told_with_its_key_and_its_mend(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(FULL_OF_FAULTS, encoding="utf-8")
    problems = file_problems([path], SHIPPED, TODAY)
    assert {problem.key: str(problem.what) for problem in problems} == {
        "width_mm": "is -2591",
        "rules": 'is "un", which is not allowed here',
        "made": "is 2031-04-01, a day to come",
        "vin": "character 12 of the VIN is 'O', which no VIN uses",
        "electrical.volts": "is 12, but iso_1185 is a 24 V connector",
        "electrical.bulbs.stop": "is 1683, a 24 V bulb in a 12 V vehicle",
        "electrical.bulbs.tail": "is 1175, which the bulb table lacks",
        "electrical.lamps licence_plate.circuit": "no circuit of iso_1185 is called fog",
        "brakes.axles 1.type": "is 31, which no stroke table lists for a clamp chamber",
    }
    for sentence in sentences(problems):
        assert sentence.startswith(f"{path}, ")


def test_which_lamps_it_has_is_not_asked_while_its_size_is_unknown(tmp_path: Path) -> None:
    path = tmp_path / "trailer.toml"
    # With the width that stands in for the faulty one it would have no clearance lamps.
    moved = '[[electrical.lamps]]\nid = "clearance_rear_left"\ncircuit = "tail"\n[brakes]'
    path.write_text(VEHICLE.replace("[brakes]", moved), encoding="utf-8")
    assert file_problems([path], SHIPPED, TODAY) == ()
    path.write_text(VEHICLE.replace("[brakes]", moved).replace("2591", "-1"), encoding="utf-8")
    [problem] = file_problems([path], SHIPPED, TODAY)
    assert problem.key == "width_mm"


def test_a_crews_own_lamps_can_be_told_of_in_its_vehicles(folder: Path) -> None:
    own = folder / "own.toml"
    row = CHECKLIST.replace('classes = ["H"]', 'circuit = "tail"')
    own.write_text(row, encoding="utf-8")
    path = folder / "vehicles" / "trailer_7.toml"
    moved = '[electrical.bulbs]\nwork_lamp = "led"\n[brakes]'
    path.write_text(VEHICLE.replace("[brakes]", moved), encoding="utf-8")
    assert problems_in(folder) == []
    path.write_text(VEHICLE.replace("[brakes]", moved.replace("work", "wrok")), encoding="utf-8")
    library = load_library(locations.shipped(), folder, today=TODAY)
    [problem] = library.problems
    assert (problem.key, str(problem.mend)) == (
        "electrical.bulbs.wrok_lamp",
        "perhaps work_lamp is meant",
    )


def test_faults_of_shape_do_not_hide_faults_of_sense_in_a_checklist(folder: Path) -> None:
    bad = folder / "own.toml"
    sound = CHECKLIST.replace("quantity = 1", "quantity = 2")
    bad.write_text(sound.replace('part = "finish"', 'part = "end"'), encoding="utf-8")
    keys = [problem.key for problem in file_problems([bad], SHIPPED, TODAY)]
    assert keys == ["step 1.part", "lamp work_lamp.quantity"]


def test_what_stands_in_for_a_missing_key_is_never_told(folder: Path) -> None:
    bad = folder / "vehicles" / "trailer_7.toml"
    bad.write_text('id = "x"\n', encoding="utf-8")
    problems = file_problems([bad], SHIPPED, TODAY)
    assert {str(problem.what) for problem in problems} == {"is missing"}


def test_the_problems_of_any_sound_file_are_none(folder: Path) -> None:
    for path in (
        folder / "own.toml",
        folder / "vehicles" / "trailer_7.toml",
        locations.shipped() / "connectors.toml",
    ):
        assert file_problems([path], SHIPPED, TODAY) == ()


def test_a_vehicle_file_is_known_by_its_electrical_table_wherever_it_lies(tmp_path: Path) -> None:
    path = tmp_path / "seven.toml"
    path.write_text(VEHICLE.replace("2591", "-1"), encoding="utf-8")
    [problem] = file_problems([path], SHIPPED, TODAY)
    assert problem.key == "width_mm"


def test_files_that_cannot_be_opened_are_all_named_and_nothing_else_is_told(folder: Path) -> None:
    (folder / "own.toml").write_text("x = 1", encoding="utf-8")
    paths = [folder / "none.toml", folder / "own.toml", folder / "vehicles"]
    missing, directory = refused(file_problems, paths, SHIPPED, TODAY)
    assert missing == f"{paths[0]}: there is no such file; check the path."
    assert directory.startswith(f"{paths[2]}: cannot be read")


def test_the_shipped_files_checked_one_by_one_or_together_have_no_problems() -> None:
    paths = [*SHIPPED.glob("*.toml"), *(SHIPPED / "vehicles").glob("*.toml")]
    assert file_problems(paths, SHIPPED, TODAY) == ()
    for path in paths:
        assert file_problems([path, path], SHIPPED, TODAY) == ()


def test_ids_are_checked_across_the_files_given_and_the_shipped_ones(folder: Path) -> None:
    one, other = folder / "vehicles" / "trailer_7.toml", folder / "seven.toml"
    other.write_text(VEHICLE, encoding="utf-8")
    [problem] = file_problems([one, other], SHIPPED, TODAY)
    assert str(problem).startswith(f"{other}, id: trailer_7 is already the id of {one};")
    copy = folder / "copy.toml"
    copy.write_bytes((SHIPPED / "setting_up.toml").read_bytes())
    [problem] = file_problems([copy], SHIPPED, TODAY)
    assert f"is already the id of {SHIPPED / 'setting_up.toml'}" in str(problem)


def test_a_vehicle_is_checked_against_the_connectors_given_with_it(folder: Path) -> None:
    vehicle, plugs = folder / "vehicles" / "trailer_7.toml", folder / "plugs.toml"
    vehicle.write_text(VEHICLE.replace("sae_j560", "depot_seven"), encoding="utf-8")
    tables = (SHIPPED / "connectors.toml").read_text(encoding="utf-8").split("\n[[connector]]\n")
    own = re.sub(r"(?m)^shares_shell.*$", "", tables[1].replace("sae_j560", "depot_seven"))
    plugs.write_text(f"[[connector]]\n{own}", encoding="utf-8")
    [alone] = file_problems([vehicle], SHIPPED, TODAY)
    assert "no connector is called depot_seven" in str(alone)
    assert file_problems([vehicle, plugs], SHIPPED, TODAY) == ()


POWER = """
[[power_source]]
id = "bench"
title = "the bench"
where = "cab"
source = "the depot"
provenance = "common practice, no source"
[[power_source.switch]]
id = "lamps"
name = "lamp switch"
[[power_source.switch.position]]
id = "on"
name = "lamps"
say = "lamp switch on"
lights = { tail = "steady", marker = "steady" }
[[power_source]]
id = "bench_helper"
title = "a helper at the bench"
where = "called"
switches_of = "bench"
source = "the depot"
provenance = "common practice, no source"
"""


def test_power_sources_load_each_with_its_switches(folder: Path) -> None:
    (folder / "power.toml").write_text(POWER, encoding="utf-8")
    library = load_library(SHIPPED, folder, today=TODAY)
    assert library.problems == ()
    sources = [library.power_sources[id_] for id_ in ("bench", "bench_helper")]
    assert [[switch.id for switch in source.switches] for source in sources] == [["lamps"]] * 2


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('where = "cab"', 'where = "roof"', 'power_source 1.where: is "roof"'),
        ("tail =", "tale =", "no circuit is called tale; perhaps tail is meant"),
        ('switches_of = "bench"', 'switches_of = "bank"', "is called bank"),
        ('id = "bench_helper"', 'id = "bench"', "stands twice"),
    ],
)
def test_a_faulty_power_source_is_told_in_one_sentence(
    folder: Path, old: str, new: str, said: str
) -> None:
    path = folder / "power.toml"
    path.write_text(POWER.replace(old, new), encoding="utf-8")
    [problem] = file_problems([path], SHIPPED, TODAY)
    assert problem.where == str(path)
    assert said in str(problem)


def test_a_power_source_whose_id_is_taken_is_told(folder: Path) -> None:
    for name in ("power.toml", "zz.toml"):
        (folder / name).write_text(POWER, encoding="utf-8")
    found = file_problems([folder / "power.toml", folder / "zz.toml"], SHIPPED, TODAY)
    assert {problem.where for problem in found} == {str(folder / "zz.toml")}
    assert [str(problem.what).split()[0] for problem in found] == ["bench", "bench_helper"]


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
    [
        "id",
        "step",
        "lamp",
        "variant",
        "kind",
        "hold",
        "applies",
        "made",
        "electrical",
        "bulbs",
        "axles",
    ]
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
        assert str(problem.what)
        assert str(problem.mend)


@given(data=st.data())
def test_a_spoilt_vehicle_table_gives_a_vehicle_or_plain_problems(
    data: st.DataObject, sound_tables: dict[str, dict[str, Any]]
) -> None:
    table = spoilt(sound_tables["vehicle"], data)
    only_plain_problems(vehicle_of, table, "f.toml", REFERENCE)


@given(data=st.data())
def test_a_spoilt_checklist_table_gives_a_checklist_or_plain_problems(
    data: st.DataObject, sound_tables: dict[str, dict[str, Any]]
) -> None:
    only_plain_problems(checklist_of, spoilt(sound_tables["checklist"], data), "f.toml")


@given(st.dictionaries(NAMES, VALUES, max_size=5))
def test_any_table_at_all_gives_plain_problems(table: dict[str, Any]) -> None:
    only_plain_problems(vehicle_of, table, "f.toml", REFERENCE)
    only_plain_problems(checklist_of, table, "f.toml")


def test_every_path_of_the_data_folder_lies_in_it(tmp_path: Path) -> None:
    assert locations.data_dir(tmp_path) == tmp_path
    assert locations.data_dir(None).name == "walkaround"
    for place in (
        locations.walks,
        locations.walk_list,
        locations.speech,
        locations.own_checklists,
        locations.settings,
    ):
        assert place(tmp_path).parent == tmp_path
    assert locations.assets().is_dir()
