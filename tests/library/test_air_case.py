"""The [air] table of a case file is understood, or one sentence says what is wrong with it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from walkaround.base.errors import InputError
from walkaround.disk.locations import shipped
from walkaround.leaks.ranking import HoldLosses, JudgedLoss, MeasuredLoss
from walkaround.library.case_file import StudiedCase, read_case
from walkaround.library.load import load_library

TODAY = date(2026, 11, 26)
LIBRARY = load_library(shipped(), today=TODAY)
SEMI = 'vehicle = "sandbag_semitrailer_7"\n'
HOLD = '[[air.hold]]\nbrakes = "released"\nlost = { supply = 6 }\n'


def read(folder: Path, text: str) -> StudiedCase:
    path = folder / "case.toml"
    path.write_text(text, encoding="utf-8")
    return read_case(path, LIBRARY, TODAY)


def test_everything_that_a_case_of_air_may_hold_is_read(tmp_path: Path) -> None:
    case = read(
        tmp_path,
        SEMI
        + '[air]\nsource = "coupled"\n'
        + '[[air.hold]]\nbrakes = "released"\nlost = { primary = 4.5 }\n'
        + 'judged = { secondary = "over" }\nlimit = 4\nheard = ["nothing"]\n'
        + '[[air.hold]]\nbrakes = "applied"\njudged = { primary = "within" }\n'
        + 'heard = ["nothing", "chamber", "hose_axle_1_left"]\n'
        + '[air.found]\n"hold:dumped" = "stands"\n',
    )
    assert case.vehicle == "sandbag_semitrailer_7"
    assert case.lamps is None
    assert case.air is not None
    study, evidence = case.air
    assert study.plumbing.source == "coupled"
    error = study.figures["rate_error"]
    assert evidence.holds == (
        HoldLosses(
            "released", {"primary": MeasuredLoss(4.5, error), "secondary": JudgedLoss(True, 4.0)}
        ),
        HoldLosses("applied", {"primary": JudgedLoss(False, 3.0)}),
    )
    assert evidence.heard == {"released": ("nothing",), "applied": ("chamber", "hose_axle_1_left")}
    assert evidence.results == {"hold:dumped": "stands"}
    assert {cause.fault.kind for cause in case.findings.causes} >= {"service_diaphragm"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SEMI + "[air]\n", "says nothing of what was seen"),
        (SEMI + '[seen.stop]\nrear_left = "dark"\n' + HOLD, "write two case files"),
        (SEMI + HOLD.replace("supply", "suply"), "perhaps supply"),
        (SEMI + HOLD.replace("supply", "primary"), "no primary gauge"),
        (SEMI + HOLD.replace("released", "relesed"), "perhaps released"),
        (SEMI + HOLD + 'judged = { supply = "ovr" }\n', "ovr"),
        (SEMI + HOLD + "limit = 0\n", "limit"),
        (SEMI + HOLD + 'heard = ["chambr"]\n', "perhaps chamber"),
        (SEMI + HOLD + '[air.found]\n"soap:released:tnk" = "none"\n', "perhaps soap:released:tank"),
        (SEMI + HOLD + '[air.found]\n"plug:red" = "fals"\n', "perhaps falls"),
        (SEMI + '[air]\nsource = "own"\n' + HOLD, "own air"),
        (SEMI + '[air]\nsorce = "shop"\n' + HOLD, "perhaps source"),
        ('vehicle = "tool_trailer_12"\n' + HOLD, "no air brakes"),
    ],
)
def test_what_is_wrong_with_a_case_of_air_is_told(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        read(tmp_path, text)
    assert len(caught.value.problems) == 1
