"""The fewest rounds: exact against a brute force, and whole in what they show."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.switchgear import (
    LAMPS,
    Looks,
    can_be_told_apart,
    circuit,
    circuits,
    demands,
    fewest_by_force,
    had_settings,
    made_sources,
    shipped_sources,
    shows,
    source,
    switch,
)

from walkaround.base.errors import InputError
from walkaround.lamps.wiring import Circuit
from walkaround.rounds.plan_rounds import MOST_SWITCHES, Rounds, plan_rounds
from walkaround.rounds.power_source import PowerSource

SOURCES = shipped_sources()
SEPARATE = circuits("marker", "tail", "left_turn", "right_turn", "stop")
COMBINED = circuits("tail", "left_stop_turn", "right_stop_turn")
TACTICAL = [*COMBINED, *circuits("blackout_marker", "blackout_stop")]

BLACKOUT = ("blackout_marker", "blackout_stop", "blackout_drive")

LOOKS = ("steady", "flashing")


def seen(rounds: Rounds) -> list[Looks]:
    """What is seen of each circuit in each setting when nothing is wrong."""
    return [dict(setting.looks) for setting in rounds.settings]


@settings(max_examples=200, deadline=None)
@given(made_sources())
def test_no_fewer_rounds_would_do(made: PowerSource) -> None:
    lamps = circuits(*LAMPS)
    assert len(plan_rounds(made, lamps).settings) == fewest_by_force(made, lamps)


@settings(max_examples=200, deadline=None)
@given(made_sources())
def test_everything_that_can_be_shown_is_shown(made: PowerSource) -> None:
    lamps = circuits(*LAMPS)
    had = had_settings(made, lamps)
    rounds = plan_rounds(made, lamps)
    assert all(looks in had for looks in seen(rounds))
    assert demands(had, lamps) <= set().union(*map(shows, seen(rounds)))


@settings(max_examples=200, deadline=None)
@given(made_sources())
def test_every_dead_swapped_or_bridged_circuit_changes_what_is_seen(made: PowerSource) -> None:
    lamps = circuits(*LAMPS)
    had = had_settings(made, lamps)
    rounds = plan_rounds(made, lamps)
    right = seen(rounds)
    for id_ in {lamp.id for lamp in lamps if any(looks[lamp.id] != "dark" for looks in had)}:
        assert [looks | {id_: "dark"} for looks in right] != right
        assert id_ not in rounds.not_switchable
    for a, b in map(sorted, can_be_told_apart(had, lamps)):
        assert [looks | {a: looks[b], b: looks[a]} for looks in right] != right
        # Bridged, both are fed when either is; whether a flasher still shows then does not matter.
        for order in (("steady", "flashing", "dark"), ("flashing", "steady", "dark")):
            both = [min(looks[a], looks[b], key=order.index) for looks in right]
            bridged = [looks | {a: x, b: x} for looks, x in zip(right, both, strict=True)]
            assert bridged != right


@settings(max_examples=200, deadline=None)
@given(made_sources())
def test_pairs_and_circuits_that_stay_hidden_are_named(made: PowerSource) -> None:
    lamps = circuits(*LAMPS)
    had = had_settings(made, lamps)
    rounds = plan_rounds(made, lamps)
    lit = {lamp.id for lamp in lamps if any(looks[lamp.id] != "dark" for looks in had)}
    hidden = {frozenset(p) for p in combinations(lit, 2)} - can_be_told_apart(had, lamps)
    assert {frozenset(pair[:2]) for pair in rounds.pairs_not_told_apart} == hidden
    assert set(rounds.not_switchable) == {lamp.id for lamp in lamps} - lit


# Common practice, no source: the published pre-trip routine walks round twice.
def test_an_ordinary_cab_needs_two_rounds() -> None:
    rounds = plan_rounds(SOURCES["cab"], SEPARATE)
    assert rounds.rounds == 2
    assert [(p.first, p.second) for p in rounds.pairs_not_told_apart] == [("marker", "tail")]
    assert str(rounds.pairs_not_told_apart[0].reason) == "the cab never lights marker without tail"
    assert str(rounds.why) == (
        "Two rounds: parking lamps, left turn; then right turn, brake pedal; "
        "the brake pedal must be held or propped."
    )
    assert str(rounds.settings[0].say) == (
        "Key on, engine off; parking lamps on; left turn on; rest off."
    )
    assert "(propped, or hand valve)" in str(rounds.settings[1].say)


@pytest.mark.parametrize("lamps", [SEPARATE, COMBINED, TACTICAL])
def test_the_shipped_cab_needs_as_many_rounds_as_a_brute_force_finds(lamps: list[Circuit]) -> None:
    cab = SOURCES["cab"]
    assert len(plan_rounds(cab, lamps).settings) == fewest_by_force(cab, lamps)


@settings(max_examples=60, deadline=None)
@given(st.sets(st.sampled_from([*LAMPS, "right_stop_turn", "left_stop"]), min_size=1, max_size=5))
def test_a_box_needs_as_many_settings_as_a_brute_force_finds(ids: set[str]) -> None:
    lamps = circuits(*sorted(ids))
    box = written_out_box(lamps)
    rounds = plan_rounds(SOURCES["box"], lamps)
    assert len(rounds.settings) == fewest_by_force(box, lamps)
    assert demands(had_settings(box, lamps), lamps) <= set().union(*map(shows, seen(rounds)))


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.dictionaries(st.sampled_from(LOOKS), st.integers(1, 2), min_size=1),
        min_size=1,
        max_size=5,
    )
)
def test_gangs_that_are_switched_alone_need_as_many_as_a_brute_force_finds(
    gangs: list[dict[str, int]],
) -> None:
    switches, lamps = [], []
    for number, gang in enumerate(gangs):
        kinds = {"steady": "tail", "flashing": "turn"}
        lights = {
            f"{kinds[look]}_g{number}n{n}": look for look, many in gang.items() for n in range(many)
        }
        lamps += circuits(*lights)
        switches.append(switch(f"s{number}", on={"lights": lights}))
    made = source(switches)
    rounds = plan_rounds(made, lamps)
    assert len(rounds.settings) == fewest_by_force(made, lamps)
    assert demands(had_settings(made, lamps), lamps) <= set().union(*map(shows, seen(rounds)))


@pytest.mark.parametrize(
    ("combined", "steady", "flashing"),
    [(1, 0, 0), (2, 1, 1), (2, 2, 0), (2, 0, 2), (3, 0, 0), (3, 1, 0), (4, 0, 0), (1, 3, 0)],
)
def test_combined_circuits_beside_others_need_as_many_as_a_brute_force_finds(
    combined: int, steady: int, flashing: int
) -> None:
    counts = {"stop_turn": combined, "tail": steady, "turn": flashing}
    lamps = circuits(*[f"{kind}_x{n}" for kind, count in counts.items() for n in range(count)])
    rounds = plan_rounds(SOURCES["box"], lamps)
    assert len(rounds.settings) == fewest_by_force(written_out_box(lamps), lamps)


def test_six_combined_circuits_go_into_three_settings_and_seven_do_not() -> None:
    for count, settings_ in ((6, 3), (7, 4), (12, 4)):
        lamps = circuits(*[f"stop_turn_x{n}" for n in range(count)])
        rounds = plan_rounds(SOURCES["box"], lamps)
        assert len(rounds.settings) == settings_
        assert demands(seen(rounds), lamps) == {
            *permutations([lamp.id for lamp in lamps], 2),
            *((lamp.id, look) for lamp in lamps for look in LOOKS),
        }


def written_out_box(lamps: list[Circuit]) -> PowerSource:
    """A box with a switch for each circuit, two positions where it stops and turns."""
    switches = []
    for lamp in lamps:
        words = lamp.id.split("_")
        positions = {}
        if "turn" not in words or "stop" in words:
            positions["steady"] = {"lights": {lamp.id: "steady"}}
        if "turn" in words:
            positions["flashing"] = {"lights": {lamp.id: "flashing"}}
        switches.append(switch(lamp.id, **positions))
    return source(switches)


def test_combined_stop_and_turn_is_shown_steady_and_flashing() -> None:
    rounds = plan_rounds(SOURCES["cab"], COMBINED)
    looks = {(id_, look) for setting in rounds.settings for id_, look in setting.looks.items()}
    for side in ("left", "right"):
        assert {(f"{side}_stop_turn", "steady"), (f"{side}_stop_turn", "flashing")} <= looks
    turning = next(s for s in rounds.settings if s.positions.get("turn") == "left")
    assert turning.positions["pedal"] == "service"
    assert turning.looks["left_stop_turn"] == "flashing"
    assert turning.looks["right_stop_turn"] == "steady"


def test_blackout_cuts_the_service_lamps_and_moves_the_stop_lamps() -> None:
    rounds = plan_rounds(SOURCES["cab"], TACTICAL)
    for setting in rounds.settings:
        if "blackout" in setting.positions:
            lit = {id_ for id_, look in setting.looks.items() if look != "dark"}
            assert lit <= {"blackout_marker", "blackout_stop"}
    assert any(setting.looks["blackout_stop"] == "steady" for setting in rounds.settings)
    assert rounds.not_switchable == ()


@settings(max_examples=100, deadline=None)
@given(
    st.sets(st.sampled_from([*LAMPS, *BLACKOUT]), min_size=1),
    st.sampled_from(["box", "cab", "helper"]),
)
def test_blackout_lamps_are_never_lit_beside_service_lamps(ids: set[str], source_id: str) -> None:
    """The switch of a vehicle excludes the two (from memory of US tactical practice)."""
    rounds = plan_rounds(SOURCES[source_id], circuits(*sorted(ids)))
    load = [rounds.load_check] if rounds.load_check else []
    for setting in [*rounds.settings, *load]:
        assert not mixed(setting.looks), setting.say
    if source_id == "box":
        assert rounds.not_switchable == ()


@settings(max_examples=150, deadline=None)
@given(made_sources((*LAMPS, *BLACKOUT)))
def test_no_source_lights_blackout_lamps_beside_service_lamps(made: PowerSource) -> None:
    """Also where its switches would; what else they can show is shown."""
    lamps = circuits(*LAMPS, *BLACKOUT)
    rounds = plan_rounds(made, lamps)
    load = [rounds.load_check] if rounds.load_check else []
    assert not any(mixed(setting.looks) for setting in [*rounds.settings, *load])
    pure = [looks for looks in had_settings(made, lamps) if not mixed(looks)]
    lit = {id_ for looks in pure for id_, look in looks.items() if look != "dark"}
    assert lit == {lamp.id for lamp in lamps} - set(rounds.not_switchable)


def mixed(looks: Mapping[str, str]) -> bool:
    on = {"blackout" in id_ for id_, look in looks.items() if look != "dark"}
    return len(on) == 2


@settings(max_examples=150, deadline=None)
@given(made_sources(), st.data())
def test_a_gear_is_in_for_as_few_settings_as_can_be_and_these_stand_together(
    made: PowerSource, data: st.DataObject
) -> None:
    """Neutral is asked for once then; tried against every choice of settings of that number."""
    geared = data.draw(st.sampled_from([switch.id for switch in made.switches]))
    made = with_gear(made, geared)
    lamps = circuits(*LAMPS)
    rounds = plan_rounds(made, lamps)
    in_gear = [setting.in_gear for setting in rounds.settings]
    assert in_gear == [geared in setting.positions for setting in rounds.settings]
    runs = "".join("g" if gear else "-" for gear in in_gear).strip("-")
    assert "-" not in runs, "one after the other"
    assert len(runs) == fewest_in_gear(made, lamps, geared)


def fewest_in_gear(made: PowerSource, lamps: Sequence[Circuit], geared: str) -> int:
    """The fewest settings in gear among all fewest sets of settings that show all demands.

    What settings show is the same whether a gear is in or not, so of two that show the same the
    one without counts.
    """
    asked = sorted(demands(had_settings(made, lamps), lamps))
    neutral = {frozenset(shows(looks)) for looks in had_settings(without(made, geared), lamps)}
    every = {frozenset(shows(looks)) for looks in had_settings(made, lamps)}
    bits = {
        sum(1 << n for n, d in enumerate(asked) if d in held): held not in neutral
        for held in sorted(every, key=lambda held: held in neutral)
    }
    reached = {0: 0}
    for _ in range(fewest_by_force(made, lamps)):
        nexts: dict[int, int] = {}
        for done, gears in reached.items():
            for one, gear in bits.items():
                both = done | one
                nexts[both] = min(nexts.get(both, 99), gears + gear)
        reached = nexts
    return reached[(1 << len(asked)) - 1]


def without(made: PowerSource, switch_id: str) -> PowerSource:
    """The source with that switch left off; what needs it cannot be set then."""
    kept = tuple(switch for switch in made.switches if switch.id != switch_id)
    return made.model_copy(update={"switches": kept})


def with_gear(made: PowerSource, geared: str) -> PowerSource:
    """The source with a gear in at every position of one switch, and of no other."""
    switches = tuple(
        switch.model_copy(
            update={
                "positions": tuple(
                    position.model_copy(update={"in_gear": switch.id == geared})
                    for position in switch.positions
                )
            }
        )
        for switch in made.switches
    )
    return made.model_copy(update={"switches": switches})


def test_the_shipped_cab_puts_reverse_in_once() -> None:
    every = circuits("headlamp", "parking", "marker", "tail", "left_turn", "right_turn", "stop",
                     "backup")  # fmt: skip
    rounds = plan_rounds(SOURCES["cab"], every)
    geared = [setting for setting in rounds.settings if setting.in_gear]
    assert [setting.looks["backup"] for setting in geared] == ["steady"]
    assert not any(s.in_gear for s in plan_rounds(SOURCES["box"], every).settings)


def test_the_hazard_signal_alone_tells_left_from_right_for_nobody() -> None:
    lights = {"left_turn": "flashing", "right_turn": "flashing"}
    rounds = plan_rounds(source([switch("hazard", on={"lights": lights})]), SEPARATE)
    assert [pair[:2] for pair in rounds.pairs_not_told_apart] == [("left_turn", "right_turn")]
    assert rounds.not_switchable == ("marker", "tail", "stop")


def test_a_look_that_the_source_cannot_give_is_named() -> None:
    plain = switch("left", on={"lights": {"left_turn": "steady", "left_stop_turn": "steady"}})
    rounds = plan_rounds(source([plain]), circuits("left_turn", "left_stop_turn"))
    assert rounds.looks_not_had == (("left_turn", "flashing"), ("left_stop_turn", "flashing"))
    assert rounds.not_switchable == ()


def test_continuous_feeds_take_no_part() -> None:
    fed = circuits("tail", "abs", "aux", "permanent", "ignition", "brake", "blackout_switch")
    fed.append(circuit("aux_k", pins=("K",)))
    rounds = plan_rounds(SOURCES["box"], fed)
    assert [setting.looks for setting in rounds.settings] == [{"tail": "steady"}]
    assert rounds.not_switchable == ()


def test_nothing_to_switch_is_no_round() -> None:
    rounds = plan_rounds(SOURCES["cab"], circuits("fog"))
    assert (rounds.rounds, rounds.trips, rounds.settings) == (0, 0, ())
    assert rounds.not_switchable == ("fog",)
    assert str(rounds.why) == "No rounds: the cab lights no circuit of this vehicle."
    assert plan_rounds(SOURCES["box"], []).rounds == 0


@pytest.mark.parametrize(
    ("id_", "why"),
    [
        ("box", "One round, three settings switched at each spot."),
        ("helper", "One round, two settings called out at each spot."),
    ],
)
def test_a_box_or_a_helper_makes_it_one_round_without_trips(id_: str, why: str) -> None:
    rounds = plan_rounds(SOURCES[id_], SEPARATE)
    assert (rounds.rounds, rounds.trips, str(rounds.why)) == (1, 0, why)
    assert not any("propped" in str(setting.say) for setting in rounds.settings)


def test_of_settings_that_serve_alike_the_one_of_least_trouble_is_chosen() -> None:
    held = {"lights": {"tail": "steady"}, "keep": "prop it"}
    easy = {"lights": {"tail": "steady"}, "excludes": ["held"]}
    made = source([switch("held", on=held), switch("easy", on=easy)])
    (setting,) = plan_rounds(made, circuits("tail")).settings
    assert setting.positions == {"easy": "on"}


@pytest.mark.parametrize(
    ("switches", "what"),
    [
        ([(f"s{n}", ["a"]) for n in range(MOST_SWITCHES + 1)], "9 switches that depend on each"),
        ([(f"s{n}", [*"abcdefg"]) for n in range(5)], "32,768 settings and matter"),
        ([(f"s{n}", [*"abcde"]) for n in range(5)], "settings that go together"),
    ],
)
def test_a_source_too_large_to_search_is_refused_in_one_sentence(
    switches: list[tuple[str, list[str]]], what: str
) -> None:
    lamps = circuits(*[f"lamp_{s}{p}" for s, positions in switches for p in positions])
    written = [
        switch(s, **{p: {"lights": {f"lamp_{s}{p}": "steady"}} for p in positions})
        for s, positions in switches
    ]
    # Not free of each other, or an antichain would do.
    written[0]["position"][0]["excludes"] = [switches[1][0]]
    with pytest.raises(InputError) as refused:
        plan_rounds(source(written), lamps)
    (problem,) = refused.value.problems
    assert str(problem).startswith("power source made, switch: has ")
    assert what in str(problem)


# The load check: tail, turn and stop lamps on together


@pytest.mark.parametrize("id_", ["box", "cab", "helper"])
@pytest.mark.parametrize("lamps", [SEPARATE, COMBINED, TACTICAL])
def test_the_load_check_has_tail_turn_and_stop_on_together(id_: str, lamps: list[Circuit]) -> None:
    load = plan_rounds(SOURCES[id_], lamps).load_check
    assert load is not None
    assert load.looks["tail"] == "steady"
    if lamps is SEPARATE:
        assert load.looks["stop"] == "steady"
        # The hazard signal, or both turn circuits of a box, loads both sides.
        assert load.looks["left_turn"] == load.looks["right_turn"] == "flashing"
    else:
        sides = {load.looks["left_stop_turn"], load.looks["right_stop_turn"]}
        assert sides == {"steady", "flashing"}


def test_a_load_check_that_is_a_setting_comes_last_and_costs_no_trip() -> None:
    combined = plan_rounds(SOURCES["cab"], COMBINED)
    assert combined.load_check == combined.settings[-1]
    assert combined.trips == combined.rounds == 2
    separate = plan_rounds(SOURCES["cab"], SEPARATE)
    assert separate.load_check not in separate.settings
    assert separate.trips == separate.rounds + 1


def test_there_is_no_load_check_where_the_three_do_not_go_together() -> None:
    assert plan_rounds(SOURCES["box"], circuits("tail", "stop")).load_check is None
    apart = [
        switch("lamps", on={"lights": {"tail": "steady"}, "excludes": ["pedal"]}),
        switch("pedal", on={"lights": {"stop": "steady", "left_turn": "flashing"}}),
    ]
    assert plan_rounds(source(apart), SEPARATE).load_check is None


def test_the_load_check_has_most_of_these_lamps_on_whatever_else_another_lights() -> None:
    three = {"tail": "steady", "left_turn": "flashing", "stop": "steady"}
    with_others = three | {"marker": "steady", "clearance": "steady", "identification": "steady"}
    with_both_sides = three | {"right_turn": "flashing"}
    dial = switch("dial", others={"lights": with_others}, sides={"lights": with_both_sides})
    lamps = circuits("marker", "clearance", "identification", *with_both_sides)
    load = plan_rounds(source([dial]), lamps).load_check
    assert load is not None
    assert load.looks["right_turn"] == "flashing"
