"""The command line: what it prints, how it ends, and one sentence for whatever goes wrong."""

from __future__ import annotations

import errno
import json
import os
import re
import signal
import socket
import subprocess
import sys
import sysconfig
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from support.english import ENGLISH
from support.shutfolders import shut
from support.stores import forget_month
from support.walks import WALK_ID, begun, some_events

from walkaround.base.message import read_in_logs_by
from walkaround.cli import main
from walkaround.disk.locations import shipped, walk_list
from walkaround.records.store import WalkStore

VEHICLES = shipped() / "vehicles"
SEMI, PUMP = VEHICLES / "flood_semitrailer_12v.toml", VEHICLES / "flood_trailer_24v.toml"
TRACTOR = VEHICLES / "depot_tractor_12v.toml"
COMMAND = Path(sysconfig.get_path("scripts")) / "walkaround"

Capsys = pytest.CaptureFixture[str]


def ran(capsys: Capsys, *arguments: object) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of one command."""
    status = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return status, out, err


def told(capsys: Capsys, *arguments: object) -> str:
    """The one sentence with which a command that cannot be done ends."""
    status, out, err = ran(capsys, *arguments)
    assert status == 2
    assert out == ""
    assert err.startswith("walkaround: ")
    assert err.count("\n") == 1
    assert err.endswith(".\n")
    assert "Traceback" not in err
    return err


# steps


@pytest.mark.parametrize("vehicle", [SEMI, PUMP], ids=lambda path: path.stem)
@pytest.mark.parametrize("power", ["box", "cab", "helper"])
def test_steps_prints_one_json_document(capsys: Capsys, vehicle: Path, power: str) -> None:
    status, out, err = ran(capsys, "steps", vehicle, "--power", power, "--json")
    document: dict[str, Any] = json.loads(out)
    assert (status, err) == (0, "")
    assert set(document) >= {"vehicle", "class", "rounds", "lamps", "reflectors", "steps"}
    assert document["class"] == "D"
    assert document["power"] == power
    assert all(document[part] for part in ("lamps", "reflectors", "steps"))


def test_steps_are_told_in_the_language_that_is_asked_for(
    capsys: Capsys, request: pytest.FixtureRequest
) -> None:
    request.addfinalizer(lambda: read_in_logs_by(ENGLISH.text))
    status, out, _ = ran(capsys, "steps", SEMI, "--language", "es", "--json")
    assert status == 0
    spanish = json.loads(out)["steps"]
    assert "no existe" in told(capsys, "--language", "es", "steps", "nowhere.toml")
    english = json.loads(ran(capsys, "steps", SEMI, "--json")[1])["steps"]
    assert [step["id"] for step in spanish] == [step["id"] for step in english]
    assert not {step["say"] for step in spanish} & {step["say"] for step in english}
    with pytest.raises(SystemExit):
        main(["steps", str(SEMI), "--language", "xx"])


def test_steps_are_told_in_the_wording_that_is_asked_for(capsys: Capsys) -> None:
    told = {
        wording: json.loads(ran(capsys, "steps", SEMI, "--wording", wording, "--json")[1])["steps"]
        for wording in ("brisk", "short", "long")
    }
    words = [sum(len(step["say"].split()) for step in told[wording]) for wording in told]
    assert words == sorted(set(words)), "fewest words first"
    ids = {tuple(step["id"] for step in steps) for steps in told.values()}
    assert len(ids) == 1, "the wording changes no step"


@pytest.mark.parametrize("vehicle", [SEMI, PUMP], ids=lambda path: path.stem)
def test_steps_prints_text_for_people(capsys: Capsys, vehicle: Path) -> None:
    status, out, err = ran(capsys, "steps", vehicle)
    assert (status, err) == (0, "")
    assert "class D" in out.splitlines()[0]
    assert "Chock two wheels, one each side, front and back" in " ".join(out.split())
    assert max(map(len, out.splitlines())) < 240


def test_steps_tell_what_is_uncertain_about_a_rule_beside_its_source(
    capsys: Capsys, tmp_path: Path
) -> None:
    """The table of UN Regulation No. 48 says of itself that a digest was read."""
    path = tmp_path / "own.toml"
    with_fog_lamp = SEMI.read_text().replace("sae_j560", "iso_11446")
    path.write_text(f'rules = "unece"\n{with_fog_lamp}')
    found = json.loads(ran(capsys, "steps", path, "--json")[1])
    assert all(lamp["doubt"] for lamp in (*found["lamps"], *found["reflectors"]))
    doubts = {step["doubt"] for step in found["steps"] if step["kind"] == "lamp"}
    assert any("read in a digest" in doubt for doubt in doubts)
    assert " ".join(ran(capsys, "steps", path)[1].split()).count("In doubt: read in a digest") >= 1
    assert not any(
        lamp["doubt"] for lamp in json.loads(ran(capsys, "steps", SEMI, "--json")[1])["lamps"]
    )


def test_a_box_in_hand_is_meant_where_no_power_is_named_and_its_own_cab_of_a_power_unit(
    capsys: Capsys,
) -> None:
    for vehicle, power in ((SEMI, "box"), (TRACTOR, "cab")):
        _, unsaid, _ = ran(capsys, "steps", vehicle, "--json")
        _, named, _ = ran(capsys, "steps", vehicle, "--power", power, "--json")
        assert unsaid == named


def test_a_box_at_a_power_unit_is_bad_input_told_in_one_sentence(capsys: Capsys) -> None:
    status, out, err = ran(capsys, "steps", TRACTOR, "--power", "box", "--json")
    assert (status, out) == (2, "")
    assert err.count("\n") == 1
    assert "feed back into the wiring of a truck tractor; use one of: cab, helper." in err


SOUND = SEMI.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "holds nothing"),
        (b"\x00\x01\x02\xff", "is not a text file"),
        ("id = 'gr\xfcn'".encode("latin-1"), "UTF-8"),
        (b"id = \n", "line 1"),
        (SOUND.replace("plate =", "plait =").encode(), "plait: there is no such key"),
        (SOUND.replace("length_mm = 13716", "length_mm = -1").encode(), "length_mm"),
        (SOUND.replace("volts = 12", "volts = 48").encode(), "electrical.volts"),
        (SOUND.replace("sae_j560", "sae_j56").encode(), "perhaps sae_j560 is meant"),
        (SOUND.replace("made = 2014-05-12", "made = 2999-01-01").encode(), "made"),
    ],
)
def test_a_vehicle_file_that_does_not_hold_is_told_in_one_sentence(
    capsys: Capsys, tmp_path: Path, content: bytes, said: str
) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    sentence = told(capsys, "steps", path, "--json")
    assert str(path) in sentence
    assert said in sentence


def test_all_problems_of_a_vehicle_file_are_told_at_once(capsys: Capsys, tmp_path: Path) -> None:
    path = tmp_path / "odd.toml"
    path.write_text(SOUND.replace("13716", "-1").replace("plate =", "plait ="), encoding="utf-8")
    status, out, err = ran(capsys, "steps", path)
    assert (status, out) == (2, "")
    assert len(err.splitlines()) == 2
    assert "length_mm" in err
    assert "plait" in err


def test_a_vehicle_file_that_is_not_there_or_a_folder_is_told(
    capsys: Capsys, tmp_path: Path
) -> None:
    assert "there is no such file" in told(capsys, "steps", tmp_path / "none.toml")
    assert "cannot be read" in told(capsys, "steps", tmp_path)


@given(st.binary(max_size=300))
@example(b"[electrical]\n")
@example(b"id = [[[[[[")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=12)
def test_no_file_at_all_ends_in_a_traceback(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "any.toml"
    path.write_bytes(content)
    assert main(["steps", str(path)]) in (0, 2)


# wiring


@pytest.mark.parametrize("vehicle", [SEMI, PUMP], ids=lambda path: path.stem)
def test_wiring_prints_one_json_document(capsys: Capsys, vehicle: Path) -> None:
    status, out, err = ran(capsys, "wiring", vehicle, "--json")
    document: dict[str, Any] = json.loads(out)
    assert (status, err) == (0, "")
    assert set(document) >= {"volts", "connector", "circuits", "clusters", "filaments"}
    assert all(document[part] for part in ("circuits", "clusters", "filaments"))


def test_wiring_prints_tables_for_people(capsys: Capsys) -> None:
    status, out, err = ran(capsys, "wiring", PUMP)
    assert (status, err) == (0, "")
    assert out.startswith("pump_trailer_3: 24 V, ")
    assert [line for line in out.splitlines() if line and not line.startswith(" ")][1:] == [
        "Pins",
        "Circuits",
        "Bulbs and LEDs",
    ]


def test_wiring_tells_what_the_contacts_may_carry_where_the_connectors_file_does(
    capsys: Capsys,
) -> None:
    _, out, _ = ran(capsys, "wiring", SEMI)
    assert out.splitlines()[1] == "Rated 12 V 7 x 40 A or 24 V 7 x 20 A"
    rated, unrated = (json.loads(ran(capsys, "wiring", each, "--json")[1]) for each in (SEMI, PUMP))
    assert rated["connector_rating"] in out
    assert unrated["connector_rating"] == ""


# causes


def case(folder: Path, vehicle: object, more: str = "") -> Path:
    """A case file: the right turn signal stays dark, the left one does not."""
    path = folder / "case.toml"
    seen = '[seen.right_turn]\nturn_rear_right = "dark"\nturn_rear_left = "dark"\n'
    seen += '[seen.left_turn]\nturn_rear_left = "lit"\nturn_rear_right = "dark"\n'
    path.write_text(f'vehicle = "{vehicle}"\n{more}{seen}', encoding="utf-8")
    return path


def test_causes_prints_one_json_document(capsys: Capsys, tmp_path: Path) -> None:
    status, out, err = ran(capsys, "causes", case(tmp_path, SEMI), "--json")
    document: dict[str, Any] = json.loads(out)
    assert (status, err) == (0, "")
    assert sum(cause["share"] for cause in document["causes"]) == pytest.approx(1)
    for cause in document["causes"]:
        assert {"kind", "place", "share", "why", "next", "same_look"} <= set(cause)
        assert all(set(fault) == {"kind", "place"} for fault in cause["same_look"])
    first = document["causes"][0]
    places = [(each["kind"], each["place"]) for each in (first, *first["same_look"])]
    assert ("burnt_out", "turn_rear_right:right_turn") in places
    assert ("open_branch", "right_turn@rear_right") in places
    assert document["next"]["trial"] == "breaker:right_turn"


def test_what_was_found_narrows_the_causes(capsys: Capsys, tmp_path: Path) -> None:
    more = 'tripped = []\nfound = { "volts:right_turn:turn_rear_right" = "full" }\n'
    path = case(tmp_path, "sandbag_semitrailer_7", more)
    document = json.loads(ran(capsys, "causes", path, "--json")[1])
    first = document["causes"][0]
    assert (first["kind"], first["same_look"]) == ("burnt_out", [])


def test_causes_are_told_people_in_few_lines(capsys: Capsys, tmp_path: Path) -> None:
    status, out, _ = ran(capsys, "causes", case(tmp_path, SEMI))
    assert status == 0
    assert "right rear turn signal" in out.lower()
    assert "\nNext: Look at the breaker or fuse of right turn." in out
    assert max(map(len, out.splitlines())) < 400


def test_a_vehicle_without_anything_odd_is_told_so(capsys: Capsys, tmp_path: Path) -> None:
    path = tmp_path / "case.toml"
    path.write_text(
        'vehicle = "sandbag_semitrailer_7"\n[seen.stop]\nrear_left = "lit"\n', encoding="utf-8"
    )
    assert json.loads(ran(capsys, "causes", path, "--json")[1])["nothing_odd"] is True
    assert ran(capsys, "causes", path)[1].startswith("Everything seen is as it should be.")


LOST_WITH_BRAKES_ON = """
vehicle = "sandbag_semitrailer_7"
[[air.hold]]
brakes = "released"
lost = { supply = 0.4 }
[[air.hold]]
brakes = "applied"
lost = { supply = 6.0, service = 0.2 }
heard = ["chamber_axle_1_left"]
"""


def test_causes_of_lost_air_have_the_shape_of_those_of_lamps(
    capsys: Capsys, tmp_path: Path
) -> None:
    path = tmp_path / "case.toml"
    path.write_text(LOST_WITH_BRAKES_ON, encoding="utf-8")
    status, out, err = ran(capsys, "causes", path, "--json")
    document: dict[str, Any] = json.loads(out)
    assert (status, err) == (0, "")
    assert sum(cause["share"] for cause in document["causes"]) == pytest.approx(1)
    for cause in document["causes"]:
        assert {"kind", "place", "share", "why", "next", "same_look"} <= set(cause)
        assert all(set(part) == {"kind", "place"} for part in cause["same_look"])
    first = document["causes"][0]
    assert (first["kind"], first["place"]) == ("service_diaphragm", "axle_1_left")
    assert document["next"]["outcomes"]
    assert "Service diaphragm, axle 1, left end." in ran(capsys, "causes", path)[1]
    path.write_text(LOST_WITH_BRAKES_ON.replace('"applied"', '"on"'), encoding="utf-8")
    assert "applied" in told(capsys, "causes", path)


def test_a_case_that_does_not_hold_is_told_in_one_sentence(capsys: Capsys, tmp_path: Path) -> None:
    wrong = told(capsys, "causes", case(tmp_path, "nobody_has_it"))
    assert "nobody_has_it" in wrong
    assert "none.toml" in told(capsys, "causes", tmp_path / "none.toml")


def test_wiring_of_a_vehicle_that_does_not_hold_is_told_in_one_sentence(
    capsys: Capsys, tmp_path: Path
) -> None:
    path = tmp_path / "odd.toml"
    path.write_text(SOUND.replace("sae_j560", "sae_j56"), encoding="utf-8")
    assert "perhaps sae_j560 is meant" in told(capsys, "wiring", path, "--json")
    assert "there is no such file" in told(capsys, "wiring", tmp_path / "none.toml")


# hold


def log(folder: Path, text: str) -> Path:
    path = folder / "hold.csv"
    path.write_bytes(text.encode())
    return path


TIGHT = "seconds,psi\n0,110\n30,110\n60,110\n"
LEAKING = "seconds;psi;note\r\n0;110,0;\r\n30;104,0;\r\n60;98;\r\n75;95;\r\n90;92\r\n"
BETWEEN = "seconds,psi\n0,110\n30,109\n60,108\n"
COOLING = "seconds,psi\n0,110\n30,103\n60,101\n75,101\n90,101\n"
RISING = "seconds,psi\n0,110\n30,112\n60,114\n"
MISREAD = "seconds,psi\n0,110\n30,10.9\n60,109.6\n75,109.5\n"
TEN = "seconds,psi\n0,110\n30,105\n60,100\n"
HALF = "seconds,psi\n0,110\n30,110\n"
FIVE_MINUTES = "seconds,psi\n" + "".join(f"{at},{110 - at // 30}\n" for at in range(0, 301, 15))


@pytest.mark.parametrize(
    ("text", "status", "verdict", "more_s", "rule", "said"),
    [
        (
            TIGHT,
            0,
            "within",
            0,
            "within",
            "Within the limit.\n"
            "Rate 0 psi/min: no leak measurable; at most 1.2 psi/min. Limit 2 psi/min",
        ),
        (LEAKING, 1, "over", 0, "over", "Over the limit.\nRate 12 psi/min: losing "),
        (
            BETWEEN,
            0,
            "undecided",
            15,
            "within",
            "Undecided: between 0.8 and 3.2, and the limit is 2. Hold 15 s more.\n",
        ),
        (COOLING, 0, "settling", 0, "over", "Settling: it cooled"),
        (RISING, 0, "settling", 0, "within", "Settling: the gauge rises; shut the source"),
        (
            MISREAD,
            0,
            "undecided",
            0,
            "within",
            "Undecided: 10.9 at 30 s does not fit: misread? Put it",
        ),
        (
            TEN,
            0,
            "undecided",
            15,
            "over",
            "Undecided: losing 10, could still be cooling. Hold 15 s more.\n",
        ),
        (HALF, 0, "undecided", 30, "within", "Undecided: too few readings. Hold 30 s more.\n"),
        (
            FIVE_MINUTES,
            0,
            "undecided",
            0,
            "within",
            "Undecided: between 1.9 and 2.1, and the limit is 2. Five minutes did not",
        ),
    ],
)
def test_hold_tells_rate_bounds_and_verdict(
    capsys: Capsys, tmp_path: Path, text: str, status: int, verdict: str, more_s: float, rule: str,
    said: str,
) -> None:  # fmt: skip
    path = log(tmp_path, text)
    code, out, err = ran(capsys, "hold", path, "--limit", 2, "--json")
    document: dict[str, Any] = json.loads(out)
    assert (code, err) == (status, "")
    assert document["verdict"] == verdict
    assert document["hold_more_s"] == more_s
    assert document["rule_verdict"] == rule
    assert (
        document["low_psi_per_min"] <= document["rate_psi_per_min"] <= document["high_psi_per_min"]
    )
    code, out, err = ran(capsys, "hold", path, "--limit", 2)
    assert (code, err) == (status, "")
    assert out.startswith(said)
    lost = document["rule_rate_psi_per_min"]
    assert f"\nPlain rule: {'lost' if lost >= 0 else 'gained'} {abs(lost):g} psi/min" in out
    assert out.endswith(f", {rule}.\n")


def test_a_coarser_gauge_and_a_worse_eye_widen_the_bounds(capsys: Capsys, tmp_path: Path) -> None:
    path = log(tmp_path, BETWEEN)
    widths = []
    for more in ([], ["--gauge-step", 5], ["--gauge-step", 5, "--read-sd", 2]):
        _, out, _ = ran(capsys, "hold", path, "--limit", 2, "--json", *more)
        found = json.loads(out)
        widths.append(found["high_psi_per_min"] - found["low_psi_per_min"])
    assert widths == sorted(set(widths))


KPA = "seconds,kPa\n0,760\n30,690\n60,615\n75,575\n90,540\n"
BAR = "seconds,bar\n0,7.60\n30,6.90\n60,6.15\n75,5.75\n90,5.40\n"


@pytest.mark.parametrize(
    ("text", "unit", "rate"), [(KPA, "kPa", "148 kPa/min"), (BAR, "bar", "1.48 bar/min")]
)
def test_a_log_in_kpa_or_bar_is_told_in_its_unit_and_printed_as_json_in_psi(
    capsys: Capsys, tmp_path: Path, text: str, unit: str, rate: str
) -> None:
    """The slope by numpy; 1 psi is 6.894757 kPa (NIST SP 811, B.8)."""
    path = log(tmp_path, text)
    rows = np.array([line.split(",") for line in text.split()[1:]], dtype=float)
    of_a_psi = 6.894757 / (1 if unit == "kPa" else 100)
    slope = -np.polyfit(rows[:, 0] / 60, rows[:, 1], 1)[0] / of_a_psi
    code, out, _ = ran(capsys, "hold", path, "--limit", 2, "--json")
    found = json.loads(out)
    assert (code, found["unit"]) == (1, unit)
    assert found["rate_psi_per_min"] == pytest.approx(slope, rel=1e-6)
    _, out, _ = ran(capsys, "hold", path, "--limit", 2)
    assert f"Rate {rate}: losing " in out
    assert "psi" not in out


def test_the_step_of_the_gauge_is_in_the_logs_unit(capsys: Capsys, tmp_path: Path) -> None:
    """Steps of 5 kPa, 0.05 bar and 0.7252 psi are one step."""
    widths = []
    for text, more in (
        (KPA, []),
        (KPA, ["--gauge-step", 5]),
        (BAR, []),
        (BAR, ["--gauge-step=.05"]),
    ):
        _, out, _ = ran(capsys, "hold", log(tmp_path, text), "--limit", 2, "--json", *more)
        found = json.loads(out)
        widths.append(found["high_psi_per_min"] - found["low_psi_per_min"])
    assert widths == pytest.approx([widths[0]] * 4, rel=1e-6)


def test_a_reading_that_does_not_fit_is_named_in_json_too(capsys: Capsys, tmp_path: Path) -> None:
    _, out, _ = ran(capsys, "hold", log(tmp_path, MISREAD), "--limit", 2, "--json")
    found = json.loads(out)
    assert (found["reason"], found["misread"]) == ("misread", {"seconds": 30.0, "psi": 10.9})
    _, out, _ = ran(capsys, "hold", log(tmp_path, TIGHT), "--limit", 2, "--json")
    assert json.loads(out)["misread"] is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "hold.csv: holds nothing"),
        ("seconds,psi\n0,110\n30,odd\n", "hold.csv, line 3: psi is 'odd'"),
        (
            "seconds,psi\n0,110\n30,900\n20,1\n",
            "hold.csv, line 3, psi: 900 psi is no gauge pressure",
        ),
    ],
)
def test_a_log_that_does_not_hold_is_told_with_its_line(
    capsys: Capsys, tmp_path: Path, text: str, said: str
) -> None:
    assert said in told(capsys, "hold", log(tmp_path, text), "--limit", 2, "--json")


def test_a_log_that_is_not_there_and_limits_that_cannot_be_are_told(
    capsys: Capsys, tmp_path: Path
) -> None:
    assert "there is no such file" in told(capsys, "hold", tmp_path / "none.csv", "--limit", 2)
    path = log(tmp_path, TIGHT)
    for limit in ("nan", "inf", "-1"):
        assert "limit_psi_per_min" in told(capsys, "hold", path, f"--limit={limit}")
    assert "gauge_step_psi" in told(capsys, "hold", path, "--limit=2", "--gauge-step=-1")


@given(st.binary(max_size=200))
@example(b"seconds,psi\r\n0,110\r\n60,nan\r\n")
@example(b"seconds,psi\n0,110\n60,1e308\n")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
def test_no_log_at_all_ends_in_a_traceback(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "any.csv"
    path.write_bytes(content)
    assert main(["hold", str(path), "--limit", "2"]) in (0, 1, 2)


# check


def test_check_of_everything_shipped_finds_nothing(capsys: Capsys) -> None:
    files = [*shipped().glob("*.toml"), *VEHICLES.glob("*.toml")]
    assert ran(capsys, "check", *files) == (0, "No problems.\n", "")
    status, out, _ = ran(capsys, "check", *files, "--json")
    found = json.loads(out)
    assert (status, found["files"], found["problems"]) == (0, list(map(str, files)), [])


def test_check_without_a_file_counts_the_facts_of_all_that_ships(
    capsys: Capsys, tmp_path: Path
) -> None:
    status, out, _ = ran(capsys, "check", "--json", "--data", tmp_path)
    document = json.loads(out)
    assert (status, document["problems"]) == (0, [])
    found = document["provenance"]
    assert set(found) == {"read", "memory", "common_practice", "none"}
    assert found["none"] == 0
    assert found["read"] > found["memory"] > 0
    status, out, _ = ran(capsys, "check", "--data", tmp_path)
    assert status == 0
    assert out.startswith("No problems.\nFacts: ")
    assert f" {found['memory']} from memory" in out


def test_check_without_a_file_tells_of_ones_own_too(capsys: Capsys, tmp_path: Path) -> None:
    own = tmp_path / "vehicles" / "mine.toml"
    own.parent.mkdir()
    own.write_text(SOUND.replace("_7", "_72").replace("13716", "-1"), encoding="utf-8")
    checklist = tmp_path / "checklists" / "own.toml"
    checklist.parent.mkdir()
    checklist.write_text("id = [", encoding="utf-8")
    status, out, _ = ran(capsys, "check", "--data", tmp_path)
    assert status == 1
    assert f"{own}, length_mm: " in out
    assert str(checklist) in out


def test_check_tells_every_problem_of_every_file_and_ends_with_one(
    capsys: Capsys, tmp_path: Path
) -> None:
    odd, bad, sound = (tmp_path / name for name in ("odd.toml", "bad.toml", "sound.toml"))
    odd.write_text(
        SOUND.replace("13716", "-1").replace("plate =", "plait =").replace("_7", "_70"),
        encoding="utf-8",
    )
    bad.write_text("id = [", encoding="utf-8")
    sound.write_text(SOUND.replace("_7", "_71"), encoding="utf-8")
    status, out, err = ran(capsys, "check", sound, odd, bad)
    assert (status, err) == (1, "")
    sentences = out.splitlines()
    assert len(sentences) == 3
    assert all(sentence.endswith(".") for sentence in sentences)
    status, out, err = ran(capsys, "check", sound, odd, bad, "--json")
    assert (status, err) == (1, "")
    problems = json.loads(out)["problems"]
    assert [set(problem) for problem in problems] == [{"where", "key", "what", "mend"}] * 3
    assert {(p["where"], p["key"]) for p in problems} == {
        (str(odd), "length_mm"),
        (str(odd), "plait"),
        (str(bad), "end of document"),
    }


def test_check_tells_an_id_that_a_shipped_file_has(capsys: Capsys, tmp_path: Path) -> None:
    copy = tmp_path / "copy.toml"
    copy.write_text(SOUND, encoding="utf-8")
    status, out, _ = ran(capsys, "check", copy)
    assert status == 1
    assert out == (
        f"{copy}, id: sandbag_semitrailer_7 is already the id of {SEMI}; "
        "give one of them another id.\n"
    )


def test_check_of_what_cannot_be_opened_is_bad_input(capsys: Capsys, tmp_path: Path) -> None:
    assert "there is no such file" in told(capsys, "check", SEMI, tmp_path / "none.toml")
    assert "cannot be read" in told(capsys, "check", tmp_path, "--json")


@given(st.binary(max_size=300))
@example(b"[[power_source]]\n")
@example(b"connector = 3\n")
@example(b"[electrical]\nvolts = []\n")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=8)
def test_check_of_any_file_ends_with_problems_and_no_traceback(
    tmp_path: Path, content: bytes
) -> None:
    path = tmp_path / "any.toml"
    path.write_bytes(content)
    assert main(["check", str(path)]) == 1


# walks


def test_nothing_that_stands_in_a_file_drives_the_terminal(capsys: Capsys, tmp_path: Path) -> None:
    file = tmp_path / "a\x1b[2Jb.toml"
    file.write_text('id = "x"\nname = "\u202e"\n', encoding="utf-8")
    for command in (["check", str(file)], ["steps", str(file)], ["check", "--json", str(file)]):
        main(command)
        printed = capsys.readouterr()
        assert "\x1b" not in printed.out + printed.err
        assert "\u202e" not in printed.out + printed.err
    assert json.loads(printed.out)["files"] == [str(file)]


def test_walks_lists_what_the_data_folder_holds(capsys: Capsys, tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    teller = begun()
    teller.ok("chocks")
    store.create(teller.walk.events[0])
    store.append(WALK_ID, teller.walk.events[1:])
    store.close()
    status, out, _ = ran(capsys, "walks", "--data", tmp_path, "--json")
    walks = json.loads(out)["walks"]
    assert status == 0
    assert [(walk["id"], walk["answered"], walk["steps"]) for walk in walks] == [(WALK_ID, 1, 7)]
    for arguments in (("walks", "--data", tmp_path), ("--data", tmp_path, "walks")):
        _, text, _ = ran(capsys, *arguments)
        assert text.startswith(f"{WALK_ID}  Pump trailer 3  1/7 answered")


def test_a_month_that_cannot_be_read_is_told_and_the_others_are_listed(
    capsys: Capsys, tmp_path: Path
) -> None:
    store = WalkStore(tmp_path)
    for month in ("09", "10"):
        store.create(some_events(f"2026{month}15_081502_4f3a9c")[0])
    store.close()
    forget_month(tmp_path, "2026-09")
    folder = tmp_path / "walks" / "2026-09"
    with shut(folder):
        status, out, err = ran(capsys, "walks", "--data", tmp_path, "--json")
        found = json.loads(out)
        assert [walk["id"] for walk in found["walks"]] == ["20261015_081502_4f3a9c"]
        (sentence,) = found["unread"]
        assert sentence.endswith("make it readable for this user.")
        assert str(folder) in sentence
        assert (status, err) == (2, f"walkaround: {sentence}\n")
        status, out, err = ran(capsys, "walks", "--data", tmp_path)
        assert (status, out.count("\n"), err) == (2, 1, f"walkaround: {sentence}\n")


def test_walks_reads_beside_a_running_app(capsys: Capsys, tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    try:
        status, out, _ = ran(capsys, "walks", "--data", tmp_path)
    finally:
        store.close()
    assert (status, out) == (0, "No walk is recorded here yet.\n")


def test_without_a_data_folder_named_the_users_own_is_read(
    capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # XDG Base Directory Specification; other systems keep it elsewhere.
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    status, out, _ = ran(capsys, "walks", "--json")
    assert (status, json.loads(out)) == (0, {"walks": []})


def test_a_data_folder_that_is_not_there_is_told(capsys: Capsys, tmp_path: Path) -> None:
    assert "is no folder" in told(capsys, "walks", "--data", tmp_path / "none")


@pytest.fixture
def recorded(tmp_path: Path) -> Path:
    store = WalkStore(tmp_path)
    teller = begun()
    teller.ok("chocks")
    store.create(teller.walk.events[0])
    store.append(WALK_ID, teller.walk.events[1:])
    store.close()
    return tmp_path


@pytest.mark.parametrize(
    ("ending", "begins"),
    [("pdf", b"%PDF"), ("html", b"<!DOCTYPE"), ("csv", b"walk,"), ("ndjson", b"{"), ("json", b"{")],
)
def test_report_writes_one_walk_as_its_ending_says(
    capsys: Capsys, recorded: Path, ending: str, begins: bytes
) -> None:
    path = recorded / f"page.{ending}"
    assert ran(capsys, "report", WALK_ID, "-o", path, "--data", recorded) == (0, "", "")
    assert path.read_bytes().startswith(begins)


def test_a_report_that_cannot_be_made_is_told_in_one_sentence(
    capsys: Capsys, recorded: Path
) -> None:
    page, data = recorded / "page.pdf", ("--data", recorded)
    unknown = "20261125_081502_000000"
    for sentence, *command in (
        ("there is no such walk", "report", unknown, "-o", page, *data),
        ("no walk id", "report", "../page", "-o", page, *data),
        ("let it end in", "report", WALK_ID, "-o", recorded / "page.doc", *data),
        ("is no folder", "report", WALK_ID, "-o", page, "--data", recorded / "none"),
        ("no-such-folder", "report", WALK_ID, "-o", recorded / "no-such-folder" / "p.pdf", *data),
        ("let it end in", "walks", "-o", recorded / "walks.pdf", *data),
    ):
        assert sentence in told(capsys, *command)
    assert not list(recorded.glob("*page*"))


@pytest.mark.parametrize("facts", [[], ["--facts"]])
def test_walks_writes_a_table_of_them(capsys: Capsys, recorded: Path, facts: list[str]) -> None:
    path = recorded / "walks.csv"
    assert ran(capsys, "walks", "-o", path, *facts, "--data", recorded) == (0, "", "")
    text = path.read_text(encoding="utf-8")
    assert text.count(WALK_ID) == text.count("\n") - 1
    assert ("value_psi" in text) == bool(facts)


# the app


def start(*arguments: object) -> tuple[object, ...]:
    return ("--no-browser", "--port", 0, *arguments)


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.7.7", "example.org", ""])
def test_the_app_is_not_served_to_a_network_unasked(
    capsys: Capsys, tmp_path: Path, host: str
) -> None:
    sentence = told(capsys, *start("--host", host, "--data", tmp_path / "data"))
    assert "--host" in sentence
    assert ("--lan" in sentence) == (host not in ("example.org", ""))
    assert not (tmp_path / "data").exists()


@pytest.mark.parametrize(
    ("flags", "said"),
    [
        (["--new-key"], "--new-key: it needs --lan"),
        (["--certificate", "a.pem", "--private-key", "b.pem"], "it needs --https"),
        (["--https", "--certificate", "a.pem"], "--certificate: it needs --private-key"),
        (["--https", "--private-key", "b.pem"], "--private-key: it needs --certificate"),
        (["--https", "--certificate", "a.pem", "--private-key", "b.pem"], "no file a.pem"),
        (["--lan", "--host", "203.0.113.200"], "cannot be used"),
        (["--lan", "--host", "depot-pc"], "is no address"),
    ],
)
def test_flags_that_do_not_fit_are_told(
    capsys: Capsys, tmp_path: Path, flags: list[str], said: str
) -> None:
    sentence = told(capsys, *start(*flags, "--data", tmp_path / "data"))
    assert said in sentence
    assert not (tmp_path / "data").exists()


def test_a_port_that_is_taken_is_told(capsys: Capsys, tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        sentence = told(capsys, "--no-browser", "--port", port, "--data", tmp_path / "data")
    assert f"Port {port}" in sentence
    assert "--port" in sentence
    assert not (tmp_path / "data").exists()


@pytest.mark.parametrize("port", [-1, 65536, 10**9])
def test_a_port_that_cannot_be_is_told(capsys: Capsys, tmp_path: Path, port: int) -> None:
    sentence = told(capsys, "--no-browser", f"--port={port}", "--data", tmp_path)
    assert f"no port {port}" in sentence


def test_a_data_folder_that_cannot_be_made_is_told(capsys: Capsys, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    sentence = told(capsys, *start("--data", tmp_path / "file" / "data"))
    assert str(tmp_path / "file") in sentence


@pytest.mark.parametrize(
    ("number", "said"),
    [(errno.ENOSPC, "no room left"), (errno.EACCES, "cannot be written"), (errno.EIO, "disk")],
)
def test_a_disk_that_takes_nothing_is_told(
    capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, said: str
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(Path, "mkdir", fails)
    assert said in told(capsys, *start("--data", tmp_path / "data"))


@pytest.fixture
def running(tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """The app as a process of its own, on the data folder `tmp_path`, listening."""
    command = [COMMAND, *map(str, start("--data", tmp_path))]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline().startswith("walkaround is at http://127.0.0.1:")
        yield process
        process.terminate()


def test_a_second_app_on_one_data_folder_says_who_has_it(
    capsys: Capsys, tmp_path: Path, running: subprocess.Popen[str]
) -> None:
    sentence = told(capsys, *start("--data", tmp_path))
    assert f"another walkaround (process {running.pid})" in sentence
    assert "--data" in sentence


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT], ids=lambda each: each.name)
def test_an_app_that_is_told_to_end_puts_everything_in_order(
    tmp_path: Path, running: subprocess.Popen[str], number: signal.Signals
) -> None:
    running.send_signal(number)
    assert running.wait(timeout=20) == 0
    WalkStore(tmp_path).close()


def shown(*arguments: object) -> tuple[str, str]:
    """What the app shows on standard output and standard error until it listens."""
    command = [COMMAND, *map(str, arguments)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8",
        env={**os.environ, "PYTHONUTF8": "1"},
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stderr is not None
        line = process.stdout.readline()
        process.terminate()
        return line + process.stdout.read(), process.stderr.read()


def test_with_lan_one_line_holds_the_address_with_its_key_and_a_code_is_shown(
    tmp_path: Path,
) -> None:
    here = start("--lan", "--host", "127.0.0.1", "--data", tmp_path)
    out, err = shown(*here)
    found = re.fullmatch(r"walkaround is at http://127\.0\.0\.1:\d+/\?key=([\w-]{43})\n", out)
    assert found
    assert "\u2588" in err
    assert found[1] not in err
    again, _ = shown(*here)
    assert found[1] in again
    anew, _ = shown(*here, "--new-key")
    assert found[1] not in anew
    kept = [path for path in tmp_path.rglob("*") if path.is_file() and path.name != "key"]
    assert kept
    assert not [path for path in kept if found[1].encode() in path.read_bytes()]


@pytest.mark.skipif(os.name == "nt", reason="the stand-in for a browser is a shell script")
def test_the_command_that_opens_the_browser_does_not_name_the_key(tmp_path: Path) -> None:
    """Every user of a machine can read its commands; the page that leads on is this user's."""
    pipe, browser, data = tmp_path / "opened", tmp_path / "browser", tmp_path / "data"
    os.mkfifo(pipe)
    browser.write_text(f'#!/bin/sh\nprintf %s "$1" > {pipe}\n', encoding="utf-8")
    browser.chmod(0o700)
    arguments = [COMMAND, "--lan", "--host", "127.0.0.1", "--port", "0", "--data", str(data)]
    environment = {**os.environ, "BROWSER": str(browser)}
    with subprocess.Popen(
        arguments, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=environment
    ) as process:
        assert process.stdout is not None
        link = process.stdout.readline().split()[-1]
        opened = pipe.read_text("utf-8")
        page = data / "pairing" / "open.html"
        assert opened == page.as_uri()
        assert link in page.read_text("ascii")
        assert page.stat().st_mode & 0o077 == 0
        process.terminate()
    assert process.returncode == 0
    assert not page.exists()


def test_with_https_the_mark_of_the_certificate_is_shown(tmp_path: Path) -> None:
    out, err = shown(*start("--https", "--data", tmp_path))
    assert out.startswith("walkaround is at https://127.0.0.1:")
    assert re.search(r"SHA-256 fingerprint: ([0-9A-F]{2}:){31}[0-9A-F]{2}\n", err)
    files = ["--certificate", tmp_path / "pairing" / "certificate.pem"]
    files += ["--private-key", tmp_path / "pairing" / "private-key.pem"]
    _, own = shown(*start("--https", *files, "--data", tmp_path / "other"))
    assert own == err


# help


def test_help_is_printed_without_loading_the_web_app() -> None:
    code = (
        "import sys\n"
        "from walkaround.cli import main\n"
        "for command in sys.argv[1:]:\n"
        "    try:\n        main([*command.split(), '--help'])\n"
        "    except SystemExit as end:\n        assert end.code == 0, command\n"
        "    assert not {'flet', 'uvicorn', 'pyttsx3', 'fpdf'} & set(sys.modules), command\n"
    )
    commands = ["", "steps", "wiring", "hold", "check", "walks", "report"]
    run = [sys.executable, "-c", code, *commands]
    done = subprocess.run(run, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("usage: walkaround")
    assert done.stdout.count("usage: ") == len(commands)


def test_the_console_script_and_the_module_are_one_program() -> None:
    results = [
        subprocess.run([*run, "steps", "none.toml"], capture_output=True, text=True, check=False)
        for run in ([COMMAND], [sys.executable, "-m", "walkaround"])
    ]
    assert {done.returncode for done in results} == {2}
    assert {done.stderr for done in results} == {
        "walkaround: none.toml: there is no such file; check the path.\n"
    }


@pytest.mark.parametrize(
    "arguments",
    [["--loud"], ["dance"], ["steps"], ["steps", "x", "--power", "sun"], ["--port", "x"]],
)
def test_what_the_command_line_does_not_know_ends_with_usage(
    capsys: Capsys, arguments: list[str]
) -> None:
    with pytest.raises(SystemExit) as caught:
        main(arguments)
    assert caught.value.code == 2
    assert capsys.readouterr().err.startswith("usage: walkaround")


def test_a_reader_that_goes_away_is_no_failure_to_tell() -> None:
    """As in `walkaround steps VEHICLE.toml | head -1`."""
    command = [sys.executable, "-m", "walkaround", "steps", str(SEMI)]
    reading, writing = os.pipe()
    os.close(reading)
    try:
        done = subprocess.run(command, stdout=writing, stderr=subprocess.PIPE, check=False)
    finally:
        os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


def test_what_was_mended_at_the_start_stands_in_the_log_file(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    store.create(some_events()[0])
    store.overview()
    store.close()
    kept = walk_list(tmp_path)
    kept.write_bytes(kept.read_bytes()[:-30])
    shown(*start("--data", tmp_path))
    text = (tmp_path / "log" / "walkaround.log").read_text("utf-8")
    assert f"{kept.name} was damaged" in text
