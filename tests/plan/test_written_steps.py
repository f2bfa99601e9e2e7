"""What a checklist's written steps become for one vehicle: who needs them, words, limits."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

import pytest
from support.walks import vehicle

from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.library.load import load_library
from walkaround.library.standard_tables import standard_tables
from walkaround.plan.steps import Step
from walkaround.plan.written_steps import written_steps
from walkaround.rules.checklist import Checklist
from walkaround.rules.limits import Air, Situation
from walkaround.vehicle.model import Axle, Brakes, Electrical, Vehicle

LIBRARY = load_library(shipped(), today=date(2026, 11, 25))
LIFTED = Axle(actuator="clamp", type="30", slack="automatic", spring=True, lift=True)
MANUAL = Axle(actuator="clamp", type="20", slack="manual")
WEDGE = Axle(actuator="wedge")
UNKNOWN = Axle(actuator="other")
AT_24_V = {"electrical": Electrical(volts=24, connector="nato_12_au")}


def rule(id_: str, kind: str = "act", **more: Any) -> dict[str, Any]:
    said = {"title": id_, "short": "Do it.", "long": "Do it now.", "source": "invented"}
    return {
        "id": id_, "part": "charge", "kind": kind, "spot": "source", "provenance": "memory",
        **said, **more,
    }  # fmt: skip


def limit(id_: str, **more: Any) -> dict[str, Any]:
    return {"id": id_, "source": f"book {id_}", "provenance": "memory", **more}


def made(
    *rules: dict[str, Any],
    axles: Sequence[Axle] = (LIFTED,),
    air: Air = "shop",
    towed: int = 0,
    chosen: dict[str, str] | None = None,
    **of_vehicle: Any,
) -> list[Step]:
    about = {"title": "Own", "source": "invented", "provenance": "memory"}
    written = {"id": "own", "step": rules, "chosen": chosen or {}, **about}
    brakes = Brakes(system="air", axles=tuple(axles), reservoir_l=(60.0, 40.0))
    a_vehicle: Vehicle = vehicle().model_copy(update={"brakes": brakes, **of_vehicle})
    wiring = wire(a_vehicle, lamps_for(a_vehicle, LIBRARY.checklists), LIBRARY.connectors)
    steps = written_steps(
        [Checklist.model_validate(written)],
        Situation(a_vehicle, air, towed),
        wiring,
        standard_tables().strokes,
    )
    return [each.step for each in steps]


@pytest.mark.parametrize(
    ("need", "has", "has_not"),
    [
        ("spring_brakes", {"axles": [LIFTED]}, {"axles": [MANUAL]}),
        ("no_spring_brakes", {"axles": [MANUAL]}, {"axles": [LIFTED]}),
        ("lift_axle", {"axles": [MANUAL, LIFTED]}, {"axles": [MANUAL]}),
        ("automatic_slack", {"axles": [LIFTED]}, {"axles": [MANUAL]}),
        ("manual_slack", {"axles": [MANUAL]}, {"axles": [LIFTED]}),
        (
            "parked_by_lever",
            {"kind": "truck", "axles": [MANUAL]},
            {"kind": "truck", "axles": [MANUAL, LIFTED]},
        ),
        ("trailer", {}, {"kind": "truck"}),
        ("power_unit", {"kind": "truck"}, {}),
        ("coupled", {"air": "coupled"}, {"kind": "truck", "air": "coupled"}),
        ("12v", {}, AT_24_V),
        ("24v", AT_24_V, {}),
        ("wedge", {"axles": [WEDGE]}, {"axles": [MANUAL]}),
        ("several_axles", {"axles": [MANUAL, MANUAL]}, {"axles": [MANUAL]}),
        ("on_shop_air", {"air": "shop"}, {"air": "coupled", "towed": 1}),
        ("coupled", {"air": "coupled", "towed": 1}, {"air": "shop"}),
        ("tows", {"kind": "truck", "towed": 1}, {"kind": "truck"}),
        ("tows", {"kind": "truck tractor"}, {"towed": 1}),
        # 49 CFR 393.53: air-braked vehicles made on or after 1994-10-20 (date read).
        ("automatic_required", {"made": date(1994, 10, 20)}, {"made": date(1994, 10, 19)}),
    ],
)
def test_a_step_stands_only_where_it_is_needed(
    need: str, has: dict[str, Any], has_not: dict[str, Any]
) -> None:
    assert [step.id for step in made(rule("a", needs=[need]), **has)] == ["a"]
    assert made(rule("a", needs=[need]), **has_not) == []


def test_a_step_tells_its_own_doubt_and_those_of_the_limits_that_hold() -> None:
    measured = {"quantity": "s"}
    limits = [limit("a", at_most=2, doubt="one book"), limit("b", at_most=3, doubt="another")]
    [step] = made(rule("time", "measure", doubt="the rule", measure=measured, limit=limits))
    assert step.doubt == "the rule; one book; another"


def test_what_an_axle_needs_is_asked_of_that_axle() -> None:
    one = rule("rod_{axle}", per_axle=True, needs=["pushrod"])
    steps = made(one, axles=[MANUAL, WEDGE, LIFTED])
    assert [step.id for step in steps] == ["rod_1", "rod_3"]


def test_wheel_ends_are_met_down_the_right_side_and_back_up_the_left() -> None:
    steps = made(rule("end_{axle}_{side}", "look", per_end=True), axles=[MANUAL, MANUAL])
    assert [step.id for step in steps] == ["end_1_right", "end_2_right", "end_2_left", "end_1_left"]
    assert [step.spot for step in steps] == ["right_side"] * 2 + ["left_side"] * 2
    assert [item.id for item in steps[2].items] == ["axle_2_left"]


def test_an_axles_words_name_its_chamber_and_its_limits() -> None:
    texts = {"long": "{chamber}: {stroke_limit}, lining {lining_limit}."}
    (step,) = made(rule("a_{axle}", per_axle=True, **texts), axles=[MANUAL])
    # 49 CFR 393.47(e)(1): clamp type 20, 1 3/4 in (from memory); 393.47(d)(2): 1/4 in (read).
    assert str(step.long) == "clamp chamber type 20: 1 3/4 in, lining 1/4 in."


def test_both_texts_on_the_linings_of_a_steering_axle_are_told() -> None:
    """49 CFR 393.47(d)(1) and part 396 App. A 1.a(6)(d) differ (both read)."""
    one = rule("a_{axle}", per_axle=True, long="{lining_texts}")
    steering, other = made(one, axles=[MANUAL, MANUAL], kind="truck")
    assert "393.47(d)(1)" in str(steering.long)
    assert "Also published: 3/16 in for a shoe with one strip" in str(steering.long)
    assert "393.47(d)(2)" in str(other.long)


def stroke_rule() -> dict[str, Any]:
    measure = {"quantity": "in", "limits_from": "strokes"}
    return rule("stroke_{axle}_{side}", "measure", per_end=True, measure=measure)


def test_a_stroke_is_held_against_the_limit_of_its_chamber() -> None:
    right, _ = made(stroke_rule(), axles=[MANUAL])
    assert right.measure is not None
    assert right.measure.values[0].at_most == 1.75
    assert "393.47(e)" in str(right.measure.limit)
    assert "qualified" in str(right.measure.advice)


def test_an_automatic_adjuster_over_its_limit_is_not_adjusted() -> None:
    right, _ = made(stroke_rule(), axles=[LIFTED])
    assert right.measure is not None
    assert "find the cause, do not adjust it" in str(right.measure.advice)


def test_a_chamber_that_no_table_lists_has_no_limit() -> None:
    right, _ = made(stroke_rule(), axles=[UNKNOWN])
    assert right.measure is not None
    assert not right.measure.known
    assert right.measure.values[0].at_most is None


def hold_rule_with(*rows: dict[str, Any], **more: Any) -> dict[str, Any]:
    hold = {
        "set_psi": {"supply": 110.0}, "limit_psi_per_min": 2.0, "limit_source": "the shop",
        "limit_provenance": "common practice, no source", **more,
    }  # fmt: skip
    return rule("hold", "hold", hold=hold, limit=rows)


def test_a_hold_takes_the_row_that_counts_and_tells_the_others() -> None:
    rows = [limit("coupled", at_most=3.0, air="coupled", per_extra_towed=1.0, equal_passes=False)]
    rows.append(limit("manual", at_most=6.0, air="coupled"))
    (step,) = made(hold_rule_with(*rows), air="coupled", towed=2)
    assert step.hold is not None
    assert (step.hold.limit_psi_per_min, step.hold.equal_passes) == (4.0, False)
    assert (step.hold.limit_source, step.hold.limit_provenance) == ("book coupled", "memory")
    assert [*map(str, step.hold.also)] == ["at most 6 psi/min: book manual"]
    (chosen,) = made(hold_rule_with(*rows), air="coupled", towed=2, chosen={"hold": "manual"})
    assert chosen.hold is not None
    assert chosen.hold.limit_psi_per_min == 6.0
    assert [*map(str, chosen.hold.also)] == ["less than 4 psi/min: book coupled"]


def test_a_hold_keeps_its_own_limit_where_no_row_is_for_the_vehicle() -> None:
    (step,) = made(hold_rule_with(limit("coupled", at_most=3.0, air="coupled")))
    assert step.hold is not None
    assert (step.hold.limit_psi_per_min, step.hold.limit_source) == (2.0, "the shop")


def test_trapped_air_is_that_of_the_reservoirs() -> None:
    (step,) = made(hold_rule_with(trapped="reservoirs"))
    assert step.hold is not None
    assert step.hold.trapped_l == 100.0
    (unknown,) = made(hold_rule_with())
    assert unknown.hold is not None
    assert unknown.hold.trapped_l is None


def test_values_are_read_off_each_gauge_against_the_row_that_counts() -> None:
    measure = {"quantity": "psi", "of": ["primary", "secondary"], "start": 60}
    rows = [limit("a", at_least=20.0, at_most=45.0), limit("b", at_most=40.0)]
    (step,) = made(rule("m", "measure", measure=measure, limit=rows))
    assert step.measure is not None
    bounds = [(value.id, value.at_least, value.at_most) for value in step.measure.values]
    assert bounds == [("primary", 20.0, 45.0), ("secondary", 20.0, 45.0)]
    assert str(step.measure.limit) == "at least 20 psi, at most 45 psi: book a"
    assert [*map(str, step.measure.also)] == ["at most 40 psi: book b"]


def test_a_drop_is_counted_from_the_value_before() -> None:
    measure = {"quantity": "psi", "of": ["primary"], "drop": True}
    (step,) = made(rule("m", "measure", measure=measure, limit=[limit("a", at_most=20.0)]))
    assert step.measure is not None
    before, after = step.measure.values
    assert (before.at_most, after.at_most, after.before) == (None, 20.0, before.id)
    assert str(step.measure.limit) == "at most 20 %: book a"


def test_a_time_is_one_value() -> None:
    measure = {"quantity": "s", "begin": "85 psi", "end": "100 psi"}
    (step,) = made(rule("m", "measure", measure=measure, limit=[limit("a", at_most=45.0)]))
    assert step.measure is not None
    assert [value.id for value in step.measure.values] == ["time"]
    assert (str(step.measure.begin), str(step.measure.end)) == ("85 psi", "100 psi")
