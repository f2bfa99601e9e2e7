"""A repair in a walk: what it can have changed is due, is asked while it can be, and is told."""

from __future__ import annotations

from typing import Any

import pytest
from support.english import ENGLISH
from support.walks import STEPS, Teller, begun, defective, lamp_item, plan, refused, step

from walkaround.walk.events import Answered, Finished, Noted, Repaired, Revisited, Signed
from walkaround.walk.state import to_sign
from walkaround.walk.transitions import recheck_stands
from walkaround.words.prompts import summary_words

WHAT: dict[str, Any] = {"done": "ground", "what": {"id": "repair-ground"}}


def with_two_looks() -> Teller:
    """Tail and stop looked at, the tail dark."""
    stop = step("stop_rear", "lamps", "lamp", power=True, items=(lamp_item("tail_left"),))
    teller = begun(plan((*STEPS[:2], stop, *STEPS[2:])))
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    teller.ok("stop_rear")
    return teller


def repaired(teller: Teller, *again: str) -> Teller:
    teller.tell(Repaired, step=again[0], again=again, **WHAT)
    return teller


def test_what_a_repair_can_have_changed_is_due_until_it_is_looked_at() -> None:
    teller = repaired(with_two_looks(), "tail_rear", "stop_rear")
    assert teller.walk.due == ("tail_rear", "stop_rear")
    teller.back("tail_rear", "recheck")
    walk = teller.ok("tail_rear")
    assert walk.defects["tail_rear"].state == "rechecked"
    assert walk.here is not None
    assert (walk.here.id, walk.purpose, walk.due) == ("stop_rear", "recheck", ("stop_rear",))
    walk = teller.ok("stop_rear")
    assert walk.due == ()
    assert walk.here is not None
    assert walk.here.id == "backup_rear"


def test_a_look_that_a_repair_made_worse_is_a_defect_of_its_own() -> None:
    teller = repaired(with_two_looks(), "tail_rear", "stop_rear")
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    walk = teller.found("stop_rear", tail_left="dim")
    assert [defect.step for defect in walk.open_defects] == ["stop_rear"]
    assert walk.due == ()


def test_a_repair_that_did_not_cure_leaves_the_rest_due() -> None:
    teller = repaired(with_two_looks(), "tail_rear", "stop_rear")
    teller.back("tail_rear", "recheck")
    walk = teller.found("tail_rear", tail_left="dim")
    assert walk.due == ("stop_rear",)
    assert walk.here is not None
    assert walk.here.id == "backup_rear"
    walk = repaired(teller, "tail_rear", "stop_rear").walk
    assert walk.due == ("stop_rear", "tail_rear")


def test_not_checked_leaves_it_due() -> None:
    teller = repaired(with_two_looks(), "tail_rear", "stop_rear")
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    walk = teller.tell(Answered, step="stop_rear", answer="not_checked", reason="no_power")
    assert walk.due == ("stop_rear",)
    teller.back("stop_rear", "recheck")
    assert teller.ok("stop_rear").due == ()


def test_only_an_open_defect_can_be_repaired_and_only_answers_be_asked_again() -> None:
    teller = with_two_looks()
    no_defect = refused(teller, Repaired, step="stop_rear", again=["stop_rear"], **WHAT)
    assert "no open defect" in no_defect
    unanswered = refused(teller, Repaired, step="tail_rear", again=["backup_rear"], **WHAT)
    assert "backup_rear" in unanswered


def test_a_repaired_air_step_waits_for_a_walk_of_its_own() -> None:
    """Its air had to be let out: what its part of the walk needs is gone."""
    teller = defective()
    teller.ok("backup_rear", "reflectors_rear")
    teller.hold(end_psi=100.0)
    teller.found("supply_hold")
    assert recheck_stands(teller.walk, "supply_hold")
    walk = repaired(teller, "supply_hold").walk
    assert not recheck_stands(walk, "supply_hold")
    why = refused(teller, Revisited, step="supply_hold", purpose="recheck")
    assert "walk of its own" in why
    # Rechecking a lamp leads nowhere near it.
    repaired(teller, "tail_rear")
    teller.back("tail_rear", "recheck")
    walk = teller.ok("tail_rear")
    assert walk.due == ("supply_hold",)
    assert walk.here is not None
    assert walk.here.id == "leaks_axle_1"


def test_a_closed_record_still_takes_what_was_repaired() -> None:
    teller = defective()
    teller.tell(Finished)
    walk = repaired(teller, "tail_rear").walk
    assert walk.phase == "finished"
    assert walk.repairs["tail_rear"].who == "Ana"
    assert walk.is_open("tail_rear")
    teller.tell(Noted, step="tail_rear", text="left one")


@pytest.mark.parametrize(("again", "said"), [(0, "Every step"), (1, "One step to look at again")])
def test_what_is_due_is_in_the_spoken_summary(again: int, said: str) -> None:
    teller = with_two_looks()
    if again:
        repaired(teller, "tail_rear", "stop_rear")
    assert summary_words(teller.walk, ENGLISH).startswith(said)


def test_a_tag_is_as_the_last_one_who_signed_for_it_left_it() -> None:
    """A sticker stays until what it hangs for is repaired: 49 CFR 396.9(c), from memory."""
    teller = defective()
    assert teller.walk.tag == ""
    left = []
    for what in ("walked", "tag_placed", "repaired", "tag_lifted", "drivers_repaired"):
        left.append(teller.tell(Signed, what=what, name="Ana").tag)
    assert left == ["", "placed", "placed", "lifted", "lifted"]
    assert teller.tell(Signed, what="tag_placed", name="Oksana").tag == "placed"


def test_what_may_be_signed_for_goes_by_what_was_found() -> None:
    """Brake repairs by one qualified for brakes: 49 CFR 396.25; repairs on the driver's report:
    396.11(a)(3)(ii)."""
    drivers = ("drivers_repaired", "drivers_unnecessary")
    of_lamps = ("walked", "tag_placed", "tag_lifted", "repaired", *drivers)
    assert to_sign(begun().walk) == ("walked",)
    assert to_sign(begun(plan(scope="recheck", recheck_of="20261120_081502_4f3a9c")).walk) == (
        "walked",
        "tag_lifted",
    )
    teller = defective()
    assert to_sign(teller.walk) == of_lamps
    teller.ok("backup_rear", "reflectors_rear")
    teller.hold(end_psi=100.0)
    teller.found("supply_hold")
    assert to_sign(teller.walk) == (*of_lamps[:4], "brakes", *drivers)


def test_what_was_signed_for_stays_when_the_defect_is_withdrawn() -> None:
    teller = defective()
    teller.tell(Signed, what="tag_placed", name="Ana")
    teller.tell(Signed, what="walked", name="Ana")
    teller.back("tail_rear")
    teller.ok("tail_rear")
    assert teller.walk.defects["tail_rear"].state == "withdrawn"
    assert to_sign(teller.walk) == ("walked", "tag_placed")
