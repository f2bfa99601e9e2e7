"""Everything that a walk showed before it was made half as long is shown still.

`shown_before.csv` was written by the planner as it was then, for every shipped vehicle: which lamps
were lit, which circuits were seen one without the other, which reflectors, and which steps were
asked. The table below says where each of those steps is now: in which step, and in which of its
words or rows.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.rules.limits import Air

NOW = {
    "level_ground": "chocks_on: level, firm ground",
    "chocks_on": "chocks_on: chock two wheels",
    "stand_secure": "chocks_on: coupled and parked|tow unit's parking brake set",
    "parked_secure": "chocks_on: parking brake set, out of gear, engine off, key in your pocket",
    "lines_seen": "lines_on: hoses not cracked, chafed or kinked",
    "lines_on": "lines_on: red to red, blue to blue",
    "lines_seen_tow": "lines_seen_tow: hoses not cracked",
    "water_drained": "water_drained: until no water comes",
    "water_drained_unsprung": "water_drained_unsprung: until no water comes",
    "water_drained_tow": "water_drained_tow: drain every tank",
    "consumers_shut": "water_drained(_unsprung)?: shut off (air ride, )?inflation, lift",
    "consumers_shut_tow": "water_drained_tow: shut off air ride, seats, doors, inflation",
    "compressor_seen": "compressor_seen: belt whole and tight",
    "gauges": "gauges(_tow|_coupled)?: at zero",
    "source_matches": "cable_on: wired as",
    "doubtful_pins": "doubtful_pins: find out what is on it",
    "cable_on": "cable_on: plug the lamp cable in",
    "cable_off": "cable_off: unplug",
    "supply_charged": "supply_charged: charge red",
    "charged_coupled": "charged_coupled: charge to cut-out",
    "charged_cut_out": "cut_out: where the needles stop",
    "cut_out": "cut_out: 135 psi at most",
    "engine_off": "engine_off: engine off",
    "source_shut": "source_shut: shut the source",
    "supply_hold": "supply_hold: air hold",
    "released_coupled": "released_coupled: release all parking brakes",
    "supply_hold_coupled": "supply_hold_coupled: air hold",
    "engine_off_released": "engine_off_released: release the parking brake",
    "released_hold": "released_hold: air hold",
    "service_applied": "service_applied: then blue",
    "applied_coupled": "applied_coupled: right down and propped",
    "pedal_applied": "pedal_applied: right down and propped",
    "applied_hold": "applied_hold: air hold, brakes on",
    "applied_hold_coupled": "applied_hold_coupled: air hold, pedal propped",
    "applied_hold_tow": "applied_hold_tow: read both gauges",
    "axle_{n}_applied": "stroke_{n}_left: no hiss",
    "axle_{n}_applied_tow": "stroke_{n}_left: no hiss",
    "service_released": "application_released(_coupled)?: vent blue|pedal up",
    "pedal_released": "application_released_tow|pedal_released: pedal up",
    "release_prompt": "application_released(_coupled)?: quick exhaust",
    "release_prompt_tow": "application_released_tow|pedal_released: quick exhaust",
    "axle_{n}_released": "rods_back: every rod back",
    "axle_{n}_released_tow": "rods_back: every rod back",
    "strokes_ready": "source_shut|released_coupled|engine_off_released: ",
    "rods_marked_{n}": "rods_marked_{n}: chalk (the rod|rods)",
    "reservoir_80_90": "service_applied|full_application(_coupled)?: 90 psi",
    "full_application": "service_applied|full_application(_coupled)?: locked|propped",
    "needles_steady": "needles_steady|full_application(_coupled)?: needles still",
    "stroke_{n}_left": "stroke_{n}_left: limit",
    "stroke_{n}_right": "stroke_{n}_right: limit",
    "clear_called": "clear_called: call",
    "application_released": "application_released(_tow|_coupled)?: vent blue|pedal up",
    "axle_{n}_alike": "rods_marked_{n}: chambers as shown, slacks alike",
    "axle_{n}_adjusters": "rods_marked_{n}: automatic adjuster with its stroke indicator",
    "axle_{n}_linings": "stroke_{n}_right: lining .*\\d",
    "hoses_seen": "rods_back: hoses and tubes along the frame",
    "reservoirs_full": "source_bled|reservoirs_full_coupled: red to|to cut-out",
    "source_bled": "source_bled|reservoirs_full_coupled: bleed between|engine off",
    "brakes_set": "brakes_set(_coupled)?: set by themselves",
    "emergency_set": "emergency_set(_coupled)?: on by themselves",
    "lines_off": "lines_off: gladhands off",
    "brakes_stay": "chocks_off: rods still out",
    "emergency_stays": "emergency_stays(_coupled)?: fifteen minutes",
    "charged_again": "fan_down: charge to cut-out",
    "reserve": "reserve: read both again",
    "recovery_ready": "charged_cut_out: to governed speed",
    # How fast the compressor brings pressure back is timed once, on the first fill.
    "recovery": "rebuild_time: 45 seconds",
    "warning_ready": "low_pressure_warning: warning silent",
    "low_pressure_warning": "low_pressure_warning: read primary as the warning comes on",
    "warning_ready_secondary": "low_pressure_secondary: warning silent",
    "low_pressure_secondary": "low_pressure_secondary: read secondary as the warning comes on",
    "trailer_supply_on": "trailer_supply_on: plug both gladhands",
    "fan_down": "fan_down|protection_valve: fan the pedal|charge to cut-out",
    "protection_valve": "protection_valve: read the higher needle",
    "spring_brakes_apply": "spring_brakes_apply: pops out",
    "engine_on_rebuild": "charged_cut_out: start the engine",
    "rebuild_time": "rebuild_time: tap at",
    "cut_in": "cut_in: needles turn up",
    "engine_off_parked": "engine_off_parked: parking brake set",
    "parking_seen": "parking_seen: spring brake rods out",
    "blanks_off": "blanks_off: plugs off",
    "chocks_off": "chocks_off(_lever)?|chocks_stay: chocks (away|stay in)",
    "chocks_stay": "chocks_stay: chocks stay in",
}
"""A step of before: the step that shows it now, and what its spoken words or its rows say of it."""

ROWS = list(csv.DictReader((Path(__file__).parent / "shown_before.csv").read_text().splitlines()))


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


@cache
def planned(vehicle_id: str, power: str, air: Air) -> Plan:
    vehicle = next(vehicle for vehicle in library().vehicles if vehicle.id == vehicle_id)
    return plan_walk(vehicle, library().rules, power=power, air=air)


def rows(what: str) -> list[dict[str, str]]:
    return [row for row in ROWS if row["what"] == what]


def about(row: dict[str, str]) -> str:
    return "-".join(filter(None, (row["vehicle"], row["power"], row["air"])))


@pytest.mark.parametrize("row", rows("lit"), ids=about)
def test_every_lamp_that_was_lit_is_lit_still(row: dict[str, str]) -> None:
    plan = planned(row["vehicle"], row["power"], "shop")
    lit = {
        lamp
        for step in plan.steps
        for item in step.items
        if step.expect.get(item.id, "dark") != "dark"
        for lamp in item.lamps
    }
    assert set(row["shown"].split()) <= lit


@pytest.mark.parametrize("row", rows("apart"), ids=about)
def test_every_circuit_that_was_seen_without_another_is_so_still(row: dict[str, str]) -> None:
    """Without it, or with another look: one that flashes is not one that is steady."""
    plan = planned(row["vehicle"], row["power"], "shop")
    lamps = lamps_for(plan.vehicle, library().checklists)
    circuit_of = wire(plan.vehicle, lamps, library().connectors).circuit_of
    looks = [looks_of(step, circuit_of) for step in plan.steps if step.circuits_on]
    for pair in row["shown"].split():
        lit, other = pair.split(">")
        assert any(lit in on and on[lit] != on.get(other) for on in looks), pair


def looks_of(step: Step, circuit_of: Mapping[str, str]) -> dict[str, str]:
    """How each circuit looks that is on; a signal outshines what is steady in its housing."""
    looks = dict.fromkeys(step.circuits_on, "steady")
    for item in step.items:
        for lamp in item.lamps:
            circuit = circuit_of.get(lamp, "")
            if circuit in looks and "turn" in circuit:
                looks[circuit] = step.expect[item.id]
    return looks


@pytest.mark.parametrize("row", rows("reflectors"), ids=about)
def test_every_reflector_and_strip_of_tape_is_looked_at_still(row: dict[str, str]) -> None:
    plan = planned(row["vehicle"], row["power"], "shop")
    seen = {item.id for step in plan.steps for item in step.items}
    assert set(row["shown"].split()) <= seen


def asked() -> Iterator[tuple[str, Air, str]]:
    for row in rows("steps"):
        air: Air = "coupled" if row["air"] == "coupled" else "shop"
        for step_id in row["shown"].split():
            yield row["vehicle"], air, step_id


@pytest.mark.parametrize(("vehicle_id", "air", "before"), [*asked()])
def test_every_step_that_was_asked_is_in_a_step_of_now(
    vehicle_id: str, air: Air, before: str
) -> None:
    if before in ("cable_on", "cable_off", "source_matches", "doubtful_pins"):
        kind = next(v.kind for v in library().vehicles if v.id == vehicle_id)
        if kind in ("truck", "truck tractor"):
            return  # its own cab feeds its lamps: there is no cable
    numbered = re.fullmatch(r"((?:axle|stroke|rods_marked)_)(\d)(_\w+)?", before)
    key = f"{numbered[1]}{{n}}{numbered[3] or ''}" if numbered else before
    where, _, said = NOW[key].partition(": ")
    if numbered:
        where = where.replace("{n}", numbered[2])
    plan = planned(vehicle_id, "cab", air)
    found = [step for step in plan.steps if re.fullmatch(where, step.id)]
    if before == "doubtful_pins" and not found:
        return  # asked only where the wiring is in doubt
    assert found, where
    words = [
        " ".join([str(step.short), *(str(item.name) for item in step.items)]).lower()
        for step in found
    ]
    assert any(re.search(said, text) for text in words), (said, words)


def test_the_table_names_nothing_that_was_not_asked() -> None:
    asked_before = {
        re.sub(r"^((?:axle|stroke|rods_marked)_)\d", r"\1{n}", step_id) for _, _, step_id in asked()
    }
    assert set(NOW) == asked_before
