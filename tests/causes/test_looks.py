"""Glow, pulsing and rates of flashing are seen where ngspice's light and currents say so.

ngspice is a circuit simulator that is not ours; its netlists are written by `support.spice`.
"""

from __future__ import annotations

import pytest
from causes.test_ranking import SEMITRAILER, usual
from support.lampcases import TABLES, spice, study
from support.spice import Broken

from walkaround.causes.appearance import predict_housing_looks
from walkaround.causes.faults import LampFault
from walkaround.causes.figures import LAMP_LOOKS, LampLook
from walkaround.causes.predictions import LitCircuits, predict
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import lamp_findings, rank_lamp_faults

TRUCK, TRACTOR = "high_water_truck_1", "depot_tractor_2"
GLOWS = 0.01
"""Light, of what the weakest lamp there gives, that the dark leaves no doubt of."""


def looks_of(
    vehicle_id: str, setting: LitCircuits, kind: str, place: str
) -> list[dict[str, LampLook]]:
    """How each housing looks with each variant of a fault."""
    predictions = predict(study(vehicle_id).network, [setting])
    housing_looks = predict_housing_looks(predictions)
    return [
        {
            housing: LAMP_LOOKS[row[0, at].argmax()]
            for at, housing in enumerate(housing_looks.housings)
        }
        for variant, row in zip(predictions.variants, housing_looks.shares, strict=False)
        if variant.fault == (kind, place) and variant.how == "whole"
    ]


@pytest.mark.parametrize("circuit", ["left_turn", "stop"])
def test_a_lamp_glows_where_the_simulator_sends_current_back_through_it(circuit: str) -> None:
    of, wired = study(SEMITRAILER), spice(SEMITRAILER)
    on = frozenset({circuit})
    fault = Broken("open_ground", "rear_left")
    [volts] = wired.solved([((fault,), on)])
    weakest = {
        x["housing"]: min(y["watts"] for y in wired.lamps if y["housing"] == x["housing"])
        for x in wired.lamps
    }
    share = {
        housing: sum(lamps.values()) / weakest[housing]
        for housing, lamps in wired.light(volts, (fault,)).items()
        if not lamps.keys() & on
    }
    [seen] = looks_of(SEMITRAILER, of.setting([circuit]), fault.kind, fault.place)
    shining = {housing for housing, each in share.items() if each > GLOWS}
    assert shining
    assert {h for h in share if seen[h] != "dark"} >= shining
    assert all(seen[h] == "dark" for h, each in share.items() if each < 0.0005)


def test_a_lamp_pulses_where_the_simulator_has_it_change_with_the_turn_signal() -> None:
    of, wired = study(SEMITRAILER), spice(SEMITRAILER)
    setting = of.setting(["tail", "left_turn"])
    rated = sum(x["watts"] / x["volts"] ** 2 for x in wired.lamps if x["circuit"] == "left_turn")
    scales = (TABLES.figures["poor_ground_large"], TABLES.figures["poor_ground_huge"])
    faults = [Broken("poor_ground", "rear_left", scale / rated) for scale in scales]
    for fault, seen in zip(
        faults, looks_of(SEMITRAILER, setting, "poor_ground", "rear_left")[-2:], strict=True
    ):
        lit, dark = wired.solved([((fault,), setting.on), ((fault,), frozenset({"tail"}))])
        light, before = (wired.light(volts, (fault,))["rear_left"]["tail"] for volts in (lit, dark))
        assert not 1 / 1.7 < light / before < 1.7
        assert seen["rear_left"] == "pulsing"
        assert seen["rear_right"] == "lit"


def test_what_is_left_of_a_turn_signal_flashes_fast_where_the_simulator_has_a_light_load() -> None:
    """A lamp lost changes the rate: SAE J588e, 4.5, in a federal letter of 1991-11-12 (read)."""
    of, wired = study(TRUCK), spice(TRUCK)
    setting = of.setting(["left_turn", "left_stop_turn"])
    there = [x for x in wired.lamps if x["circuit"] in setting.on]
    assert len(there) > 1
    gone = there[0]["housing"]
    fault = Broken("burnt_out", f"{gone}:{there[0]['circuit']}")
    sound, lost = wired.solved([((), setting.on), ((fault,), setting.on)])
    # What flows comes out of the battery through the same ohms.
    load = (lost["battery"] - lost["rail"]) / (sound["battery"] - sound["rail"])
    assert load < TABLES.figures["flash_odd_below"]
    left = [x["housing"] for x in there[1:]]
    told = LampEvidence(
        (
            *(s for s in usual(of) if s.setting != setting),
            *(Sighting(setting, (housing,), "fast") for housing in left),
            Sighting(setting, (gone,), "dark"),
        )
    )
    cause = rank_lamp_faults(of, told).causes[0]
    assert LampFault("burnt_out", fault.place) in (cause.fault, *cause.same_look)


@pytest.mark.parametrize("look", ["fast", "slow", "steady"])
@pytest.mark.parametrize("vehicle_id", [SEMITRAILER, TRACTOR])
def test_turn_signals_that_all_light_at_a_wrong_rate_have_a_bad_flasher(
    vehicle_id: str, look: LampLook
) -> None:
    of = study(vehicle_id)
    told = LampEvidence(
        tuple(
            s._replace(look=look) if s.setting.flashing and s.look == "lit" else s
            for s in usual(of)
        )
    )
    found = lamp_findings(of, told)
    assert found.causes[0].fault.kind == "flasher"
    assert found.causes[0].trial == "flasher"


def test_only_the_signal_of_one_side_that_is_fast_is_no_surer_a_flasher_than_both() -> None:
    of = study(TRUCK)

    def share(sides: tuple[str, ...]) -> float:
        told = tuple(
            s._replace(look="fast") if s.setting.flashing & {*sides} and s.look == "lit" else s
            for s in usual(of)
        )
        ranking = rank_lamp_faults(of, LampEvidence(told))
        at = ranking.faults.index(LampFault("flasher", ""))
        return float(ranking.weights[ranking.fault_of == at].sum())

    assert share(("left_turn",)) <= share(("left_turn", "right_turn"))


def test_diodes_seen_out_are_of_an_led_also_where_the_file_says_bulb() -> None:
    of = study(SEMITRAILER)
    stop = of.setting(["stop"])
    told = tuple(
        s._replace(look="some_out") if (s.setting, s.housings) == (stop, ("rear_left",)) else s
        for s in usual(of)
    )
    first = lamp_findings(of, LampEvidence(told)).causes[0]
    assert first.fault == LampFault("burnt_out", "rear_left:stop")
    assert "LED" in str(first.why)
