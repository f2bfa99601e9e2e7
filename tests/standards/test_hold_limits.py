"""Limits of the shipped air holds against 49 CFR 570.57 and common practice.

49 CFR 570.57(a)(5): engine stopped, brakes released, not more than 2 psi in one minute for a
single vehicle, 3 for a combination, one more for each further towed vehicle. (a)(6): brakes fully
applied, not more than 3 and 4. Both read. The rule is for units coupled to a power unit; for a
lone trailer on shop air the same figures at 110 psi supply and 90 psi service are common
practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest

from walkaround.airhold.verdict import assess
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.rules.limits import HoldRule

RELEASED_SINGLE, APPLIED_SINGLE = 2.0, 3.0


def shipped_holds() -> dict[str, HoldRule]:
    library = load_library(shipped(), today=date(2026, 11, 25))
    return {
        step.id: step.hold
        for checklist in library.checklists
        for step in checklist.steps
        if step.hold
    }


TRAILER = {"supply_hold", "applied_hold"}
COUPLED = {"supply_hold_coupled", "applied_hold_coupled"}
TOW_VEHICLE = {"released_hold", "applied_hold_tow"}


def test_these_are_the_holds_that_are_shipped() -> None:
    assert set(shipped_holds()) == TRAILER | COUPLED | TOW_VEHICLE


@pytest.mark.parametrize(
    ("hold_id", "limit_psi_per_min", "set_psi"),
    [
        ("supply_hold", RELEASED_SINGLE, {"supply": 110.0}),
        ("applied_hold", APPLIED_SINGLE, {"supply": 110.0, "service": 90.0}),
    ],
)
def test_a_hold_has_the_limit_of_a_single_vehicle_and_the_pressures_of_the_shop(
    hold_id: str, limit_psi_per_min: float, set_psi: dict[str, float]
) -> None:
    rule = shipped_holds()[hold_id]
    assert rule.limit_psi_per_min == limit_psi_per_min
    assert dict(rule.set_psi) == set_psi
    assert rule.seconds == 60.0  # "for one minute"


def test_the_supply_gauge_is_read_first_in_both_holds_of_a_lone_trailer() -> None:
    """A chamber that leaks is fed from the reservoir, so it shows on the supply gauge."""
    gauges = {id_: tuple(rule.set_psi) for id_, rule in shipped_holds().items()}
    assert gauges["supply_hold"] == ("supply",)
    assert gauges["applied_hold"] == ("supply", "service")


def test_both_circuits_are_read_where_the_air_is_the_tow_units() -> None:
    for hold_id in COUPLED | TOW_VEHICLE:
        assert tuple(shipped_holds()[hold_id].set_psi) == ("primary", "secondary")


def test_a_leak_is_sized_only_where_the_reservoirs_of_one_trailer_are_all_there_is() -> None:
    assert {id_ for id_, rule in shipped_holds().items() if rule.trapped} == {"supply_hold"}


def test_where_the_figures_of_a_lone_trailer_come_from_is_said() -> None:
    for hold_id in ("supply_hold", "applied_hold"):
        rule = shipped_holds()[hold_id]
        assert rule.limit_provenance == "common practice, no source"
        assert "shop practice" in rule.limit_source


@pytest.mark.parametrize(
    ("hold_id", "lost_psi", "verdict"),
    [
        ("supply_hold", 2, "within"),
        ("supply_hold", 3, "over"),
        ("applied_hold", 3, "within"),
        ("applied_hold", 4, "over"),
    ],
)
def test_not_more_than_means_that_the_limit_itself_passes(
    hold_id: str, lost_psi: float, verdict: str
) -> None:
    limit = shipped_holds()[hold_id].limit_psi_per_min
    assert assess([(0, 110), (60, 110 - lost_psi)], limit).rule_verdict == verdict
