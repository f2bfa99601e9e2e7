"""Whatever was seen gives a ranking whose shares sum to 1, and what fits speaks for a fault."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.lampcases import VEHICLES, alone, study

from walkaround.causes.appearance import chance_said
from walkaround.causes.faults import LampFault
from walkaround.causes.figures import LAMP_LOOKS, LampLook
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import Study, lamp_findings, rank_lamp_faults
from walkaround.causes.trials import LampTrial
from walkaround.diagnosis.ranking import AGREES, Ranking

SEMITRAILER, CONDITIONS = "sandbag_semitrailer_7", ("sun", "rain", "dirty_lenses")


def usual(of: Study) -> tuple[Sighting, ...]:
    """What a sound vehicle shows, each circuit alone."""
    wired = {(load.housing, load.circuit) for load in of.network.loads}
    return tuple(
        Sighting(setting, (housing,), "lit" if (housing, *setting.on) in wired else "dark")
        for setting in alone(of)
        for housing in of.housings
    )


def but(of: Study, **odd: LampLook) -> LampEvidence:
    """A sound vehicle but for these: `tail__rear_left="dark"`."""
    sightings = tuple(
        s._replace(look=odd.get(f"{next(iter(s.setting.on))}__{s.housings[0]}", s.look))
        for s in usual(of)
    )
    return LampEvidence(sightings)


def first(evidence: LampEvidence, vehicle_id: str = SEMITRAILER) -> set[LampFault]:
    cause = rank_lamp_faults(study(vehicle_id), evidence).causes[0]
    return {cause.fault, *cause.same_look}


@st.composite
def any_evidence(draw: st.DrawFn) -> tuple[Study, LampEvidence]:
    of = study(draw(st.sampled_from(sorted(VEHICLES))))
    circuits, housings = of.network.circuits, of.housings
    looks = st.builds(
        Sighting,
        st.sets(st.sampled_from(circuits), min_size=1, max_size=2).map(
            lambda on: of.setting(sorted(on))
        ),
        st.lists(st.sampled_from(housings), min_size=1, max_size=3, unique=True).map(tuple),
        st.sampled_from(LAMP_LOOKS),
    )
    tripped = st.none() | st.frozensets(st.sampled_from(circuits), max_size=2)
    conditions = st.frozensets(st.sampled_from(CONDITIONS))
    sightings = tuple(draw(st.lists(looks, max_size=12)))
    return of, LampEvidence(sightings, draw(tripped), draw(conditions))


@settings(max_examples=40)
@given(any_evidence())
def test_any_evidence_gives_shares_that_sum_to_1_and_every_place_once(
    drawn: tuple[Study, LampEvidence],
) -> None:
    of, evidence = drawn
    told = lamp_findings(of, evidence)
    assert sum(cause.share for cause in told.causes) == pytest.approx(1)
    shares = [cause.share for cause in told.causes]
    assert shares == sorted(shares, reverse=True)
    listed = [fault for cause in told.causes for fault in (cause.fault, *cause.same_look)]
    assert len(listed) == len(set(listed))
    assert all(str(cause.why) and str(cause.next) for cause in told.causes)


@settings(max_examples=60)
@given(any_evidence(), st.data())
def test_a_look_that_a_fault_predicts_never_lowers_it_against_one_that_does_not(
    drawn: tuple[Study, LampEvidence], data: st.DataObject
) -> None:
    of, evidence = drawn
    of_circuit = data.draw(st.sampled_from(alone(of)))
    housing = data.draw(st.sampled_from(of.housings))
    look = data.draw(st.sampled_from(LAMP_LOOKS))
    before = rank_lamp_faults(of, evidence)
    more = replace(
        evidence, sightings=(*evidence.sightings, Sighting(of_circuit, (housing,), look))
    )
    after = rank_lamp_faults(of, more)
    [kept] = of.cache.values()
    shares = kept.housing_looks.shares[:-1, kept.predictions.settings.index(of_circuit)]
    fits = shares / shares.max(axis=-1, keepdims=True)
    chances = chance_said(
        fits[:, of.housings.index(housing)], look, of.network.figures, evidence.conditions
    )
    predicted = chances >= AGREES
    grown = after.weights / np.maximum(before.weights, 1e-300)
    known = before.weights > 1e-200
    if (predicted & known).any() and (~predicted & known).any():
        assert grown[predicted & known].min() >= grown[~predicted & known].max() * (1 - 1e-9)


@pytest.mark.parametrize("conditions", [(), CONDITIONS])
def test_no_word_fits_better_than_the_right_one(conditions: tuple[str, ...]) -> None:
    """Of the chances that something is said, the right word's is the greatest."""
    figures = study(SEMITRAILER).network.figures
    certain = np.eye(len(LAMP_LOOKS))
    for said in LAMP_LOOKS:
        chances = chance_said(certain, said, figures, conditions)  # type: ignore[arg-type]
        assert chances.argmax() == LAMP_LOOKS.index(said)
        assert (chances > 0).all()


def test_one_dark_lamp_is_its_bulb_or_the_wire_to_it() -> None:
    found = first(but(study(SEMITRAILER), right_turn__turn_rear_right="dark"))
    assert LampFault("burnt_out", "turn_rear_right:right_turn") in found
    assert LampFault("open_branch", "right_turn@rear_right") in found
    assert all("right_turn" in fault.place for fault in found)


def test_a_lost_ground_is_known_by_lamps_that_glow_where_none_should() -> None:
    """A lamp whose ground is lost is fed backward through the others of its cluster.

    So the tail and the clearance lamp shine while the stop or turn signal beside them is on: the
    sign of a bad ground that every mechanic knows (common practice).
    """
    found = first(
        but(
            study(SEMITRAILER),
            stop__rear_left="dim",
            stop__clearance_rear_left="dim",
            left_turn__turn_rear_left="dim",
            left_turn__clearance_rear_left="dim",
        )
    )
    assert found <= {LampFault("open_ground", "rear_left"), LampFault("poor_ground", "rear_left")}


def test_a_circuit_that_lights_the_lamps_of_another_is_crossed_or_bridged_with_it() -> None:
    swapped = but(
        study(SEMITRAILER),
        left_turn__turn_rear_left="dark",
        left_turn__turn_rear_right="lit",
        right_turn__turn_rear_right="dark",
        right_turn__turn_rear_left="lit",
    )
    assert first(swapped) == {LampFault("crossed", "left_turn+right_turn")}
    both = but(
        study(SEMITRAILER),
        left_turn__turn_rear_right="lit",
        right_turn__turn_rear_left="lit",
    )
    assert first(both) == {LampFault("bridged", "left_turn+right_turn")}


def test_a_dark_circuit_that_trips_is_shorted_and_one_that_does_not_is_open() -> None:
    dark = but(study(SEMITRAILER), right_turn__turn_rear_right="dark")
    assert first(replace(dark, tripped=frozenset({"right_turn"}))) == {
        LampFault("shorted", "right_turn")
    }
    assert LampFault("shorted", "right_turn") not in first(replace(dark, tripped=frozenset()))
    # Nobody said whether it tripped.
    assert LampFault("shorted", "right_turn") in first(dark)


def test_a_turn_signal_that_flickers_is_loose_somewhere() -> None:
    found = first(but(study(SEMITRAILER), right_turn__turn_rear_right="flicker"))
    assert LampFault("burnt_out", "turn_rear_right:right_turn") in found


def test_diodes_that_are_out_are_those_of_that_led() -> None:
    of = study("pontoon_trailer_9")
    found = first(but(of, stop__rear_left="some_out"), "pontoon_trailer_9")
    assert found == {LampFault("burnt_out", "rear_left:stop")}


def test_a_lamp_that_pulses_with_the_turn_signal_has_a_bad_ground() -> None:
    of = study(SEMITRAILER)
    together = of.setting(["tail", "left_turn"])
    pulsing = (Sighting(together, ("rear_left",), "pulsing"),)
    found = first(LampEvidence((*usual(of), *pulsing)))
    assert {fault.kind for fault in found} <= {"open_ground", "poor_ground", "bridged"}
    assert LampFault("poor_ground", "rear_left") in found


def test_one_of_several_lamps_that_is_lit_though_it_should_be_dark_counts() -> None:
    of = study(SEMITRAILER)
    left = of.setting(["left_turn"])
    dark = tuple(housing for housing in of.housings if housing != "turn_rear_left")
    own = (Sighting(left, ("turn_rear_left",), "lit"), Sighting(left, dark, "lit"))
    assert all("left_turn" in fault.place for fault in first(LampEvidence(own)))


def test_nothing_odd_lists_what_would_not_have_shown() -> None:
    of = study("pump_trailer_3")
    ranking = rank_lamp_faults(of, LampEvidence(usual(of)))
    assert ranking.nothing_odd
    # Both light the same housings, each with a lamp of its own of one size.
    assert LampFault("crossed", "blackout_marker+blackout_stop") in first(
        LampEvidence(usual(of)), "pump_trailer_3"
    )


def test_sun_makes_a_single_odd_look_less_telling() -> None:
    of = study(SEMITRAILER)
    odd = but(of, tail__rear_left="dark", right_turn__turn_rear_right="dark")
    plain = rank_lamp_faults(of, odd)
    in_sun = rank_lamp_faults(of, replace(odd, conditions=frozenset({"sun"})))
    assert share(in_sun, LampFault("open_ground", "rear_left")) > share(
        plain, LampFault("open_ground", "rear_left")
    )


def share(ranking: Ranking[LampFault, LampTrial], fault: LampFault) -> float:
    of_fault = ranking.fault_of == ranking.faults.index(fault)
    return float(ranking.weights[of_fault].sum())
