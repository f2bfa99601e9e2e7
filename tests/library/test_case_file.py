"""A case file is understood, or says in one sentence what is wrong with it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from walkaround.base.errors import InputError
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.disk.locations import shipped
from walkaround.library.case_file import read_case
from walkaround.library.load import load_library

TODAY = date(2026, 11, 26)
LIBRARY = load_library(shipped(), today=TODAY)
SEEN = '[seen.stop]\nrear_left = "dark"\n'


def read(folder: Path, text: str) -> tuple[str, LampEvidence]:
    path = folder / "case.toml"
    path.write_text(text, encoding="utf-8")
    case = read_case(path, LIBRARY, TODAY)
    assert case.lamps
    return case.vehicle, case.lamps[1]


def test_everything_that_a_case_may_hold_is_read(tmp_path: Path) -> None:
    vehicle, evidence = read(
        tmp_path,
        'vehicle = "sandbag_semitrailer_7"\n'
        'tripped = ["tail"]\n'
        'conditions = ["sun", "dirty_lenses"]\n'
        + SEEN
        + '[seen."stop+left_turn"]\nrear_left = "pulsing"\n'
        + '[found]\n"volts:stop:rear_left" = "none"\n',
    )
    assert vehicle == "sandbag_semitrailer_7"
    alone, together = evidence.sightings
    assert alone == Sighting(alone.setting, ("rear_left",), "dark")
    assert (alone.setting.on, alone.setting.flashing) == ({"stop"}, frozenset())
    assert together.setting.on == {"stop", "left_turn"}
    assert together.setting.flashing == {"left_turn"}
    assert evidence.tripped == {"tail"}
    assert evidence.conditions == {"sun", "dirty_lenses"}
    assert evidence.results == {"volts:stop:rear_left": "none"}


def test_nothing_said_of_breakers_is_not_that_none_tripped(tmp_path: Path) -> None:
    head = 'vehicle = "sandbag_semitrailer_7"\n'
    assert read(tmp_path, head + SEEN)[1].tripped is None
    assert read(tmp_path, head + "tripped = []\n" + SEEN)[1].tripped == frozenset()


def test_a_vehicle_is_found_beside_the_case_and_from_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = shipped() / "vehicles" / "flood_trailer_24v.toml"
    (tmp_path / "mine.toml").write_bytes(file.read_bytes())
    seen = '[seen.tail]\nrear_left = "dark"\n'
    assert read(tmp_path, f'vehicle = "mine.toml"\n{seen}')[0] == "pump_trailer_3"
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.chdir(tmp_path)
    assert read(elsewhere, f'vehicle = "mine.toml"\n{seen}')[0] == "pump_trailer_3"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "holds nothing"),
        (SEEN, "vehicle"),
        ('vehicle = "sandbag_semitrailer_7"', "says nothing of what was seen; add a"),
        ('vehicle = "none.toml"\n' + SEEN, "none.toml"),
        ('vehicle = "sandbag_semitrailer_7"\n[seen.stopp]\nrear_left = "dark"', "perhaps stop"),
        ('vehicle = "sandbag_semitrailer_7"\n[seen."stop+tial"]\nrear_left = "dark"', "tail"),
        ('vehicle = "sandbag_semitrailer_7"\n[seen.stop]\nrear_lft = "dark"', "perhaps rear_left"),
        ('vehicle = "sandbag_semitrailer_7"\n[seen.stop]\nrear_left = "drak"', "perhaps dark"),
        ('vehicle = "sandbag_semitrailer_7"\ntripped = ["stpo"]\n' + SEEN, "perhaps stop"),
        ('vehicle = "sandbag_semitrailer_7"\nconditions = ["fog"]\n' + SEEN, "fog"),
        ('vehicle = "sandbag_semitrailer_7"\n[found]\n"volts:stop:rear" = "none"', "volts:stop"),
        ('vehicle = "sandbag_semitrailer_7"\n[found]\n"volts:stop:rear_left" = "nil"', "none"),
        ('vehicle = "sandbag_semitrailer_7"\nsaw = 1\n' + SEEN, "no such key"),
    ],
)
def test_what_does_not_hold_is_said_in_one_sentence(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        read(tmp_path, text)
    [problem] = caught.value.problems
    assert said in str(problem)
    assert str(problem).endswith(".")
    assert "\n" not in str(problem)
