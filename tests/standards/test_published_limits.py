"""Which published limits are told of an air test, for each number of towed units and each date.

Typed from the rules, not from the data. 49 CFR 570.57(a)(5), (a)(6): 2 and 3 psi in a minute for a
single vehicle, 3 and 4 for a combination, 1 more for each further towed unit (read). Drivers'
manuals: less than 2 single, less than 3 for two vehicles, less than 5 released and 6 applied for
three (read, as quoted). 49 CFR 570.57(a)(1): 20 percent; 393.50(b): 70 percent must be left of a
vehicle not made to FMVSS 121, which is for trucks made on or after 1975-03-01 (49 CFR 571.121 S3,
from memory). 570.57(a)(3): 60 psi for vehicles built to FMVSS 121, 50 for older ones; 393.51(c):
55 psi or half of the cut-out. FMVSS 121 S5.1.1: 25 s; 570.57(a)(4): 45 s. S5.8.1 and what is
common practice of it: emergency brakes hold for 15 minutes.
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.rules.checklist import StepRule
from walkaround.rules.limits import Air, Situation
from walkaround.vehicle.model import Vehicle

LAST_OLD, FIRST_NEW = date(1975, 2, 28), date(1975, 3, 1)
TRACTOR, TRAILER = "depot_tractor_2", "sandbag_semitrailer_7"


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 26))


def rule(step_id: str) -> StepRule:
    [found] = [s for c in library().checklists for s in c.steps if s.id == step_id]
    return found


def vehicle(id_: str, made: date | None = None) -> Vehicle:
    found = next(each for each in library().vehicles if each.id == id_)
    return found.model_copy(update={"made": made}) if made else found


def told(step_id: str, situation: Situation) -> dict[str, tuple[float | None, float | None, bool]]:
    """At least, at most and whether equal passes, by the row's id."""
    rows = [situation.resolved(row) for row in rule(step_id).limits if situation.holds(row)]
    return {row.id: (row.at_least, row.at_most, row.equal_passes) for row in rows}


def at_most(limit: float, *, equal: bool = True) -> tuple[None, float, bool]:
    return None, limit, equal


@pytest.mark.parametrize(
    ("step_id", "towed", "limits"),
    [
        (
            "released_hold",
            0,
            {"part_570_single": at_most(2), "driver_manual_single": at_most(2, equal=False)},
        ),
        (
            "released_hold",
            1,
            {
                "part_570_combination": at_most(3),
                "driver_manual_combination": at_most(3, equal=False),
            },
        ),
        ("released_hold", 2, {"part_570_combination": at_most(4), "three_vehicles": at_most(5)}),
        ("released_hold", 3, {"part_570_combination": at_most(5), "three_vehicles": at_most(5)}),
        ("applied_hold_tow", 0, {"part_570_single": at_most(3)}),
        ("applied_hold_tow", 1, {"part_570_combination": at_most(4)}),
        ("applied_hold_tow", 2, {"part_570_combination": at_most(5), "three_vehicles": at_most(6)}),
        ("applied_hold_tow", 3, {"part_570_combination": at_most(6), "three_vehicles": at_most(6)}),
        (
            "supply_hold_coupled",
            1,
            {
                "part_570_combination": at_most(3),
                "driver_manual_combination": at_most(3, equal=False),
            },
        ),
        (
            "supply_hold_coupled",
            2,
            {"part_570_combination": at_most(4), "three_vehicles": at_most(5)},
        ),
        ("applied_hold_coupled", 1, {"part_570_combination": at_most(4)}),
        (
            "applied_hold_coupled",
            2,
            {"part_570_combination": at_most(5), "three_vehicles": at_most(6)},
        ),
    ],
)
def test_a_hold_tells_the_limits_for_as_many_units_as_are_towed(
    step_id: str, towed: int, limits: dict[str, object]
) -> None:
    of = TRAILER if step_id.endswith("_coupled") else TRACTOR
    assert told(step_id, Situation(vehicle(of), "coupled", towed)) == limits


@pytest.mark.parametrize(
    ("step_id", "limit_psi_per_min"),
    [
        ("released_hold", 2.0),
        ("applied_hold_tow", 3.0),
        ("supply_hold_coupled", 3.0),
        ("applied_hold_coupled", 4.0),
    ],
)
def test_a_hold_lasts_a_minute_and_falls_back_on_the_rule(
    step_id: str, limit_psi_per_min: float
) -> None:
    hold = rule(step_id).hold
    assert hold is not None
    assert hold.seconds == 60.0
    assert hold.limit_psi_per_min == limit_psi_per_min


@pytest.mark.parametrize(
    ("step_id", "before", "since"),
    [
        (
            "rebuild_time",
            {"in_service": at_most(45)},
            {"in_service": at_most(45), "fmvss_121_new": at_most(25)},
        ),
        (
            "reserve",
            {"part_570": at_most(20), "part_393": at_most(30)},
            {"part_570": at_most(20)},
        ),
    ],
)
def test_what_holds_for_vehicles_made_to_fmvss_121_holds_from_its_day_on(
    step_id: str, before: dict[str, object], since: dict[str, object]
) -> None:
    air: Air = "coupled"
    assert told(step_id, Situation(vehicle(TRACTOR, LAST_OLD), air, 1)) == before
    assert told(step_id, Situation(vehicle(TRACTOR, FIRST_NEW), air, 1)) == since


@pytest.mark.parametrize("step_id", ["low_pressure_warning", "low_pressure_secondary"])
def test_the_warning_of_older_vehicles_has_limits_of_its_own(step_id: str) -> None:
    older = told(step_id, Situation(vehicle(TRACTOR, LAST_OLD), "coupled", 1))
    newer = told(step_id, Situation(vehicle(TRACTOR, FIRST_NEW), "coupled", 1))
    assert older["part_393"][0] == 55.0
    assert older["part_570"][0] == 50.0
    assert newer["fmvss_121"][0] == 60.0
    assert "fmvss_121" not in older
    assert not {"part_393", "part_570"} & set(newer)


@pytest.mark.parametrize("step_id", ["emergency_stays", "emergency_stays_coupled"])
def test_emergency_brakes_are_looked_at_again_after_fifteen_minutes(step_id: str) -> None:
    wait = rule(step_id).wait
    assert wait is not None
    assert wait.seconds == 15 * 60
