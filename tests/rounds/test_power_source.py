"""Power sources as people write them, and every sentence about one that does not hold."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from pydantic import ValidationError
from support.switchgear import circuit, circuits, shipped_sources, source, switch

from walkaround.base.toml_model import problems_of
from walkaround.disk.locations import shipped
from walkaround.lamps.feeds import ROLES
from walkaround.rounds.power_checks import power_problems
from walkaround.rounds.power_source import (
    NO_PART,
    PowerTable,
    looks_wanted,
    switches_for,
    takes_part,
)

# Every circuit that lights lamps, and a fog lamp circuit that no cab switch lights.
CIRCUITS = circuits(
    "marker", "tail", "tail_left", "tail_right", "left_turn", "left_stop_turn", "right_turn",
    "right_stop_turn", "stop", "left_stop", "right_stop", "backup", "blackout_marker",
    "blackout_stop", "headlamp", "parking", "blackout_drive", "fog",
)  # fmt: skip
IDS = {lamp.id for lamp in CIRCUITS}
LIGHTS = {"tail": "steady"}


def table(*sources: dict[str, Any]) -> PowerTable:
    """A file with these sources, written as in TOML."""
    return PowerTable.model_validate({"power_source": list(sources)})


def written(*switches: dict[str, Any], **changes: Any) -> dict[str, Any]:
    base = {"id": "bench", "title": "the bench", "where": "cab", "source": "s"}
    own = {"switch": list(switches)} if switches else {}
    return base | {"provenance": "memory"} | own | changes


def sentences(*sources: dict[str, Any]) -> list[str]:
    return [str(problem) for problem in power_problems(table(*sources), "power.toml", IDS)]


def test_the_shipped_sources_have_no_problems() -> None:
    text = (shipped() / "power_sources.toml").read_text(encoding="utf-8")
    shipped_table = PowerTable.model_validate(tomllib.loads(text))
    assert power_problems(shipped_table, "power_sources.toml", IDS) == []
    assert [(s.id, s.where) for s in shipped_table.sources] == [
        ("box", "spot"),
        ("cab", "cab"),
        ("helper", "called"),
    ]


def test_the_shipped_box_has_a_switch_for_each_circuit() -> None:
    box = switches_for(shipped_sources()["box"], CIRCUITS)
    assert [s.id for s in box] == [lamp.id for lamp in CIRCUITS]
    for lamp, own in zip(CIRCUITS, box, strict=True):
        assert [dict(p.lights) for p in own.positions] == [
            {lamp.id: look} for look in looks_wanted(lamp)
        ]


def test_the_shipped_cab_switches_every_lamp_circuit_but_fog() -> None:
    switches = switches_for(shipped_sources()["cab"], CIRCUITS)
    assert {id_ for s in switches for p in s.positions for id_ in p.lights} == IDS - {"fog"}


def test_the_shipped_helper_has_the_switches_of_the_cab() -> None:
    sources = shipped_sources()
    assert sources["helper"].switches == sources["cab"].switches
    assert sources["helper"].where == "called"


def test_a_combined_circuit_has_two_looks() -> None:
    assert looks_wanted(circuit("left_stop_turn")) == ("steady", "flashing")
    assert looks_wanted(circuit("left_turn")) == ("flashing",)
    assert looks_wanted(circuit("stop")) == ("steady",)
    assert looks_wanted(circuit("blackout_stop")) == ("steady",)


def test_feeds_that_are_always_on_take_no_part() -> None:
    fed = [*circuits("abs", "aux", "brake"), circuit("aux_k", pins=("K",))]
    assert not any(takes_part(feed) for feed in fed)
    assert all(takes_part(lamp) for lamp in CIRCUITS)


def test_a_circuit_of_one_pin_among_several_is_lit_by_its_plain_id() -> None:
    made = source([switch("lamps", on={"lights": {"stop": "steady", "aux_k": "steady"}})])
    lamps = [circuit("stop_4", pins=("4",)), circuit("stop_c", pins=("C",))]
    (lamp_switch,) = switches_for(made, lamps)
    assert lamp_switch.positions[0].lights == {"stop_4": "steady", "stop_c": "steady"}


def test_what_lights_nothing_here_is_left_out_unless_it_is_needed() -> None:
    made = source(
        [
            switch("key", on={}, start={}),
            switch("turn", left={"lights": {"left_turn": "flashing"}, "needs": ["key.on"]}),
            switch("reverse", on={"lights": {"backup": "steady"}, "needs": ["key"]}),
        ]
    )
    here = switches_for(made, circuits("left_turn", "tail"))
    assert [(s.id, [p.id for p in s.positions]) for s in here] == [
        ("key", ["on"]),
        ("turn", ["left"]),
    ]
    both = switches_for(made, circuits("left_turn", "backup"))
    assert [p.id for p in both[0].positions] == ["on", "start"]
    assert switches_for(made, circuits("tail")) == ()


LAMPS = switch("lamps", on={"lights": LIGHTS})
KEY = switch("key", on={})


@pytest.mark.parametrize(
    ("sources", "sentence"),
    [
        (
            [written(LAMPS), written(LAMPS)],
            "power.toml, power_source bench: stands twice; give each its own id.",
        ),
        (
            [written(LAMPS, LAMPS)],
            "power.toml, power_source bench.switch lamps: stands twice; give each its own id.",
        ),
        (
            [written(LAMPS | {"position": LAMPS["position"] * 2})],
            "power.toml, power_source bench.switch lamps.position on: stands twice; "
            "give each its own id.",
        ),
        (
            [written(LAMPS, title=" ")],
            "power.toml, power_source bench.title: is empty; write the text.",
        ),
        (
            [written(switch("lamps", on={"lights": LIGHTS, "say": ""}))],
            "power.toml, power_source bench.switch lamps.position on.say: is empty; "
            "write the text.",
        ),
        (
            [written()],
            "power.toml, power_source bench: has no switches; write each_circuit = true, "
            "switches_of or [[power_source.switch]] tables, one of them.",
        ),
        (
            [written(LAMPS, each_circuit=True)],
            "power.toml, power_source bench: says in two ways which switches it has; "
            "write each_circuit = true, switches_of or [[power_source.switch]] tables, "
            "one of them.",
        ),
        (
            [written(LAMPS, switch("key"))],
            "power.toml, power_source bench.switch key: has no position; add a "
            "[[power_source.switch.position]] table or take the switch out.",
        ),
        (
            [written(LAMPS), written(id="mate", switches_of="bensh")],
            "power.toml, power_source mate.switches_of: no source with switches in "
            "this file is called bensh; perhaps bench is meant.",
        ),
        (
            [written(id="mate", switches_of="mate")],
            "power.toml, power_source mate.switches_of: no source with switches in "
            "this file is called mate; write its switches out.",
        ),
        (
            [written(KEY, switch("x", on={"lights": LIGHTS, "needs": ["kee.on", "key"]}))],
            "power.toml, power_source bench.switch x.position on.needs: no switch or "
            "position of this source is called kee.on; perhaps key.on is meant.",
        ),
        (
            [written(switch("turn", left={"lights": LIGHTS, "excludes": ["turn"]}))],
            "power.toml, power_source bench.switch turn.position left.excludes: names "
            "turn, but a switch is in one position at a time anyway; take it out.",
        ),
        (
            [written(LAMPS, KEY)],
            "power.toml, power_source bench.switch key.position on: lights nothing and nothing "
            "needs it; write what it lights, or take it out: off needs no table.",
        ),
        (
            [written(switch("turn", left={"lights": {"left_trun": "flashing"}}))],
            "power.toml, power_source bench.switch turn.position left.lights: no circuit is "
            "called left_trun; perhaps left_turn is meant.",
        ),
    ],
)
def test_what_does_not_hold_is_told_in_one_sentence(
    sources: list[dict[str, Any]], sentence: str
) -> None:
    assert sentences(*sources) == [sentence]


def test_nothing_fills_a_placeholder_of_a_source() -> None:
    [sentence] = sentences(written(LAMPS, title="the {place}"))
    assert sentence.startswith(
        "power.toml, power_source bench.title: nothing fills the placeholder"
    )


def test_all_problems_of_a_file_are_told_at_once() -> None:
    turn = switch("turn", left={"lights": {"left_trun": "flashing"}, "needs": ["key"], "name": ""})
    assert len(sentences(written(turn, title=""), written(id="mate"))) == 5


def test_a_fault_of_shape_names_its_key() -> None:
    bad = written(switch("lamps", on={"lights": {"tail": "blinking"}, "need": ["key"]}))
    with pytest.raises(ValidationError) as error:
        table(bad)
    place = "power.toml, power_source 1.switch 1.position 1"
    assert sorted(str(problem) for problem in problems_of(error.value, "power.toml")) == [
        f'{place}.lights.tail: is "blinking", which is not allowed here; '
        "use one of: flashing, steady.",
        f"{place}.need: there is no such key; perhaps needs is meant.",
    ]


def test_every_circuit_that_a_contact_feeds_lights_lamps_or_takes_no_part() -> None:
    assert {role.id for role in ROLES.values()} == IDS | NO_PART
