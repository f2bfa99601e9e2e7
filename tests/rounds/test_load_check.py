"""The load check: tail, turn and stop lamps on together."""

from __future__ import annotations

import pytest
from support.switchgear import circuits, shipped_sources, source, switch

from walkaround.lamps.wiring import Circuit
from walkaround.rounds.rounds import plan_rounds

SOURCES = shipped_sources()
SEPARATE = circuits("marker", "tail", "left_turn", "right_turn", "stop")
COMBINED = circuits("tail", "left_stop_turn", "right_stop_turn")
TACTICAL = [*COMBINED, *circuits("blackout_marker", "blackout_stop")]


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
