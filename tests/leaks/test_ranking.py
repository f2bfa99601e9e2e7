"""Whatever gauges and ears told gives shares that sum to 1, and what fits speaks for a leak."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.aircases import RIGS, air_study

from walkaround.diagnosis.ranking import AGREES
from walkaround.leaks.ranking import AirEvidence, HoldLosses, JudgedLoss, MeasuredLoss
from walkaround.leaks.study import AirStudy, air_findings, air_ranked
from walkaround.leaks.tables import BRAKE_STATES
from walkaround.leaks.trials import heard_at, told_places
from walkaround.leaks.variants import AirPart, over_chances, rate_chances

SEMITRAILER = ("sandbag_semitrailer_7", "shop")


def first(evidence: AirEvidence, rig: tuple[str, str] = SEMITRAILER) -> set[AirPart]:
    cause = air_ranked(air_study(*rig), evidence).causes[0]  # type: ignore[arg-type]
    return {cause.fault, *cause.same_look}


def lost(**psi_per_min: float) -> dict[str, MeasuredLoss]:
    return {gauge: MeasuredLoss(rate, 0.4) for gauge, rate in psi_per_min.items()}


def holds(
    released: dict[str, MeasuredLoss], applied: dict[str, MeasuredLoss]
) -> tuple[HoldLosses, ...]:
    return (HoldLosses("released", released), HoldLosses("applied", applied))  # type: ignore[arg-type]


@st.composite
def any_evidence(draw: st.DrawFn) -> tuple[AirStudy, AirEvidence]:
    of = air_study(*draw(st.sampled_from(RIGS)))
    rates = st.builds(MeasuredLoss, st.floats(-5, 200), st.floats(0.05, 20))
    judged = st.builds(JudgedLoss, st.booleans(), st.floats(0.5, 20))
    gauges = st.dictionaries(st.sampled_from(of.plumbing.gauges), rates | judged)
    held = st.builds(HoldLosses, st.sampled_from(BRAKE_STATES), gauges)
    places = st.sampled_from((*of.variants.places, *told_places(of.variants)))
    heard = st.dictionaries(st.sampled_from(BRAKE_STATES), st.lists(places, max_size=3).map(tuple))
    results = {}
    for trial in draw(st.lists(st.sampled_from(of.trials), max_size=4)):
        results[trial.id] = draw(st.sampled_from(trial.outcomes))
    holds = tuple(draw(st.lists(held, max_size=4)))
    return of, AirEvidence(holds, draw(heard), results)


@settings(max_examples=60)
@given(any_evidence())
def test_any_evidence_gives_shares_that_sum_to_1_and_every_part_once(
    drawn: tuple[AirStudy, AirEvidence],
) -> None:
    of, evidence = drawn
    told = air_findings(of, evidence)
    assert sum(cause.share for cause in told.causes) == pytest.approx(1)
    shares = [cause.share for cause in told.causes]
    assert shares == sorted(shares, reverse=True)
    listed = [part for cause in told.causes for part in (cause.fault, *cause.same_look)]
    assert len(listed) == len(set(listed))
    assert all(str(cause.why) and str(cause.next) for cause in told.causes)
    assert told.next is None or told.next.id not in evidence.results


@settings(max_examples=80)
@given(any_evidence(), st.data())
def test_what_a_leak_predicted_never_lowers_it_against_one_that_did_not(
    drawn: tuple[AirStudy, AirEvidence], data: st.DataObject
) -> None:
    of, evidence = drawn
    brakes = data.draw(st.sampled_from(BRAKE_STATES))
    gauge = data.draw(st.sampled_from(of.plumbing.gauges))
    rates = of.variants.rates[brakes][of.variants.gauges.index(gauge)]
    match data.draw(st.sampled_from(["rate", "judged", "heard"])):
        case "rate":
            found = MeasuredLoss(data.draw(st.floats(0, 100)), data.draw(st.floats(0.1, 5)))
            more = replace(evidence, holds=(*evidence.holds, HoldLosses(brakes, {gauge: found})))
            chances = rate_chances(rates, found.psi_per_min, found.error, of.figures)
        case "judged":
            limit = data.draw(st.floats(1, 6))
            judged = HoldLosses(brakes, {gauge: JudgedLoss(over=True, limit=limit)})
            more = replace(evidence, holds=(*evidence.holds, judged))
            chances = over_chances(rates, limit, of.figures)
        case _:
            place = data.draw(st.sampled_from(told_places(of.variants)))
            evidence = replace(evidence, heard={})
            more = replace(evidence, heard={brakes: (place,)})
            chances = heard_at(of.variants, brakes, place)
    before, after = air_ranked(of, evidence), air_ranked(of, more)
    predicted = chances[:-1] >= AGREES
    grown = after.weights / np.maximum(before.weights, 1e-300)
    known = before.weights > 1e-200
    if (predicted & known).any() and (~predicted & known).any():
        assert grown[predicted & known].min() >= grown[~predicted & known].max() * (1 - 1e-9)


def test_red_that_falls_in_both_holds_with_a_hiss_in_front_is_its_seal() -> None:
    heard = {"released": ("red_gladhand",), "applied": ("red_gladhand",)}
    evidence = AirEvidence(holds(lost(supply=25), lost(supply=25, service=0)), heard)  # type: ignore[arg-type]
    assert first(evidence) == {AirPart("gladhand_seal", "red")}


def test_a_chamber_that_leaks_with_the_brakes_on_shows_on_red_not_on_blue() -> None:
    """A chamber is fed from the tank, and the tank by red: common practice, physics."""
    on_red = holds(lost(supply=0), lost(supply=5, service=0))
    on_blue = holds(lost(supply=0), lost(supply=0, service=5))
    kinds = {part.kind for part in first(AirEvidence(on_red))}
    assert kinds == {"service_diaphragm"}
    assert "service_diaphragm" not in {part.kind for part in first(AirEvidence(on_blue))}


def test_of_an_exhaust_that_hisses_released_the_dumped_red_tells_valve_from_chamber() -> None:
    """The tank goes on feeding the relay; the spring chambers are empty without red."""
    held = holds(lost(supply=12), lost(supply=7, service=0))
    at_exhaust = {"released": ("relay_exhaust",), "applied": ("relay_exhaust",)}
    goes_on = AirEvidence(held, {**at_exhaust, "dumped": ("relay_exhaust",)})  # type: ignore[arg-type]
    stops = AirEvidence(held, {**at_exhaust, "dumped": ("nothing",)})  # type: ignore[arg-type]
    assert {part.kind for part in first(goes_on)} == {"relay_valve"}
    assert {part.kind for part in first(stops)} == {"spring_diaphragm"}


def test_a_plugged_line_that_falls_is_the_shops_own() -> None:
    held = holds(lost(supply=20), lost(supply=20, service=0))
    assert first(AirEvidence(held, {}, {"plug:red": "falls"})) == {AirPart("test_hose", "red")}
    assert AirPart("test_hose", "red") not in first(AirEvidence(held, {}, {"plug:red": "stands"}))


def test_one_gauge_of_a_power_unit_is_its_circuit_and_both_are_what_both_feed() -> None:
    tractor = ("depot_tractor_2", "own")
    released = AirEvidence((HoldLosses("released", lost(primary=6, secondary=0)),))  # type: ignore[arg-type]
    assert AirPart("drain", "primary") in first(released, tractor)
    both = AirEvidence(
        (HoldLosses("released", lost(primary=4, secondary=4)),),  # type: ignore[arg-type]
        {"released": ("dash",), "applied": ("dash",)},
    )
    assert {part.kind for part in first(both, tractor)} <= {"parking_knob", "supply_knob"}


def test_first_somebody_listens() -> None:
    for rig in RIGS:
        of = air_study(*rig)
        gauge = of.plumbing.gauges[0]
        told = air_findings(of, AirEvidence(holds(lost(), lost(**{gauge: 6.0}))))
        assert told.next is not None
        assert told.next.id == "listen:applied", rig


def test_a_place_that_a_vehicle_does_not_have_says_nothing() -> None:
    held = holds(lost(supply=5), lost(supply=5, service=0))
    of = air_study(*SEMITRAILER)  # type: ignore[arg-type]
    odd = AirEvidence(held, {"released": ("attic",)})
    np.testing.assert_array_equal(
        air_ranked(of, odd).weights, air_ranked(of, AirEvidence(held)).weights
    )
