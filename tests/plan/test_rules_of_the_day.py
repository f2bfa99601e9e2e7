"""A vehicle is judged by the rules that are in force on the day of its walk."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from support.made_up_vehicles import SEMITRAILER, TODAY

from walkaround.brakes.strokes import StrokeRow, StrokeTable
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import Rulebook, plan_walk
from walkaround.rules.checklist import Checklist

LAST, FIRST = date(2026, 3, 22), date(2026, 3, 23)


def lamp(id_: str, **more: Any) -> dict[str, Any]:
    return {
        **{"id": id_, "kind": "reflector", "name": id_, "colour": ["red"], "quantity": 1},
        **{"end": "rear", "spread": "centre", "what": "w", "why": "w", "height": "h"},
        **{"source": "book", "provenance": "read", **more},
    }


HEAD = {"id": "own", "title": "own", "source": "book", "provenance": "read"}
TABLE = Checklist.model_validate(
    {
        **HEAD,
        "lamp": [
            lamp("until", valid_to=LAST),
            lamp("since", valid_from=FIRST),
            lamp(
                "always",
                variant=[
                    {
                        **{"classes": ["D"], "quantity": 0, "valid_from": FIRST},
                        **{"source": "note", "provenance": "read"},
                    }
                ],
            ),
        ],
    }
)


def rules(checklist: Checklist) -> Rulebook:
    shipped_rules = load_library(shipped(), today=TODAY).rules
    return replace(shipped_rules, checklists=(checklist, *shipped_rules.checklists))


def own_marks(day: date | None) -> set[str]:
    plan = plan_walk(SEMITRAILER, rules(TABLE), day=day)
    return {mark.id for mark in plan.marks} & {"until", "since", "always"}


def test_rows_and_variants_count_from_their_first_day_to_their_last() -> None:
    assert own_marks(LAST) == {"until", "always"}
    assert own_marks(FIRST) == {"since"}


def test_limits_of_a_step_count_in_the_same_way() -> None:
    limit = {"source": "book", "provenance": "read", "at_least": 1}
    step = {
        **{"id": "cut", "part": "charge", "kind": "measure", "title": "t", "short": "s"},
        **{"long": "l", "spot": "cab", "measure": {"quantity": "psi", "of": ["primary"]}},
        **{"source": "book", "provenance": "read"},
        "limit": [{"id": "old", "valid_to": LAST, **limit}, {"id": "new", **limit}],
    }
    table = Checklist.model_validate({**HEAD, "step": [step]})
    assert [row.id for row in table.on(LAST).steps[0].limits] == ["old", "new"]
    assert [row.id for row in table.on(FIRST).steps[0].limits] == ["new"]


def test_strokes_go_by_the_day_too() -> None:
    row = StrokeRow("clamp", "30", False, None, 2.0, "book", "read", valid_to=LAST)
    shipped_strokes = load_library(shipped(), today=TODAY).rules.strokes
    table = StrokeTable((row,), shipped_strokes.unlisted)
    assert table.on(LAST).rows == (row,)
    assert table.on(FIRST).rows == ()
