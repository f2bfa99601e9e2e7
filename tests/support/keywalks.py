"""Whole walks by a pedal of two keys, on real screens without a browser; the rest is tapped."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from browser.seeds import answer
from support.app import App
from support.flet_harness import Screen

from walkaround.key_answers.learned_keys import LearnedKeys
from walkaround.plan.steps import Step
from walkaround.ui.page.device import Device
from walkaround.ui.page.keyboard import KEYS_KEY
from walkaround.walk.events import Answered
from walkaround.walk.state import FAULTS, Walk

OK, WRONG = "Page Down", "Page Up"
PEDAL = LearnedKeys(keys={OK: "ok", WRONG: "defect"})


@dataclass
class Tally:
    """What became of a walk: steps answered by keys and by taps, defects told by keys."""

    by_key: int = 0
    by_tap: int = 0
    defects: int = 0


async def pedal_kept(_: Device, key: str) -> str:
    """What a phone that has learnt the pedal keeps; put it in place of `Device._text_kept`."""
    return PEDAL.model_dump_json() if key == KEYS_KEY else ""


async def walked_by_keys(depot: App, walk_id: str, chance: Random) -> Tally:
    """Answer every step by the pedal where it may, else on another page; each counts once."""
    tally = Tally()
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.until(lambda: screen.has("key_line"))
        while (step := _walk(depot, walk_id).here) is not None:
            await screen.until(lambda step=step: _shows(depot, screen, walk_id, step))
            before = len(_walk(depot, walk_id).events)
            if not step.hands_free:
                for key in (OK, WRONG, OK):
                    await screen.press(key)
                assert len(_walk(depot, walk_id).events) == before, step.id
                answer(depot.parts, walk_id, step)
                tally.by_tap += 1
                continue
            wrong = chance.random() < 0.15
            if wrong:
                await _told(depot, screen, walk_id, step, chance)
            else:
                if screen.has("listen"):
                    # What another page moved on to is said at the first press.
                    await screen.press(OK)
                    await screen.until(lambda: screen.has("ok"))
                await screen.press(OK)
                await screen.until(lambda n=before: len(_walk(depot, walk_id).events) > n)
            walk = _walk(depot, walk_id)
            last = walk.events[-1]
            assert isinstance(last, Answered)
            assert (len(walk.events), last.step, last.by) == (before + 1, step.id, "key")
            assert (last.answer in FAULTS) == (wrong and last.answer != "ok")
            tally.by_key += 1
            tally.defects += last.answer in FAULTS
    return tally


async def _told(depot: App, screen: Screen, walk_id: str, step: Step, chance: Random) -> None:
    """Go through what can be wrong with the two keys until an answer is in the record."""
    before = len(_walk(depot, walk_id).events)
    for _ in range(200):
        if screen.has("key_line"):
            await screen.press(WRONG)
        for _ in range(chance.randrange(4)):
            await screen.press(WRONG)
        await screen.press(OK)
        if len(_walk(depot, walk_id).events) > before:
            return
    raise AssertionError(f"no defect was told of {step.id}")


def _walk(depot: App, walk_id: str) -> Walk:
    return depot.parts.open_walks.walk(walk_id)


def _shows(depot: App, screen: Screen, walk_id: str, step: Step) -> bool:
    steps = _walk(depot, walk_id).steps
    place = f"{steps.index(step) + 1} of {len(steps)}"
    return place in screen.texts() and screen.has("key_line")
