"""Whole walks by people who do not tap an English phone held at arm's length in both hands.

Each way walks a vehicle from its start screen to its closed record. The long one, with air, is in
Spanish, at 200 % text and with reduced motion at once; the others walk a trailer of few steps.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator
from support.english import ENGLISH
from support.spanish import SPANISH
from support.voices import BriefVoice
from support.walks import FakeClock

from browser.holding import perform
from browser.phone import PATIENCE_MS, SIZES, TWICE_S, Phone
from browser.seeds import SEMITRAILER
from browser.serving import Served, served
from walkaround.plan.steps import Step
from walkaround.timing import Timing
from walkaround.walk.events import Answered
from walkaround.walk.state import Walk
from walkaround.words.language import Words

pytestmark = [pytest.mark.browser, pytest.mark.soak]

TOOL_TRAILER = "tool_trailer_12"
LOWER_PART = 0.4
"""A thumb of the hand that holds a phone reaches what lies below so much of its height; common
practice, no source."""
_FOCUSED = "node => node === document.activeElement || node.contains(document.activeElement)"


class KeyboardPhone(Phone):
    """Nothing is touched: Tab to what is wanted, then Enter."""

    def press(self, found: Locator) -> None:
        found.wait_for(state="attached")
        self.page.wait_for_timeout(1000 * TWICE_S)
        for _ in range(80):
            if found.count() and found.evaluate(_FOCUSED):
                self.page.keyboard.press("Enter")
                return
            self.page.keyboard.press("Tab")
            self.page.wait_for_timeout(30)
        raise AssertionError(f"Tab never came to {found}.")


class NamesPhone(Phone):
    """Nothing is touched or seen: what has a role and a name is activated, as screen readers do."""

    def press(self, found: Locator) -> None:
        found.wait_for(state="attached")
        self.page.wait_for_timeout(1000 * TWICE_S)
        found.evaluate("node => node.click()")


class ThumbPhone(Phone):
    """All is touched by the thumb of the hand that holds the phone; a defect could be, too."""

    def press(self, found: Locator) -> None:
        found.wait_for(state="attached")
        self.at_rest()
        width, height = SIZES["small phone"]
        for target in (found, self.button(ENGLISH("answer-defect"))):
            box = target.bounding_box() if target.count() else None
            if box is not None:
                assert box["y"] + box["height"] / 2 >= LOWER_PART * height, (target, box)
                assert box["x"] >= 0
                assert box["x"] + box["width"] <= width + 0.5
        super().press(found)


@dataclass
class Walking:
    """A phone, and the app that it is at."""

    phone: Phone
    app: Served
    clock: FakeClock
    words: Words

    def begin(self, vehicle_id: str) -> str:
        """Begin from the vehicle's start page; the walk's id."""
        self.phone.open(self.app.address, f"start/{vehicle_id}")
        self.phone.answer(self.words("start-the-walk"))
        self.phone.page.wait_for_url("**/walk/*")
        return self.phone.walk_id

    def here(self, walk_id: str) -> Step | None:
        return self.walk(walk_id).here

    def walk(self, walk_id: str) -> Walk:
        return self.app.parts.open_walks.walk(walk_id)

    def right(self, step: Step) -> re.Pattern[str]:
        """What the first answer of a step may be called."""
        ids = ("answer-ok", "answer-done", "step-as-shown", "chambers-marked", "gauge-at-zero")
        names = [self.words(id_) for id_ in ids]
        names += [self.words.text(choice.text) for choice in step.choices[:1]]
        return re.compile("^(" + "|".join(map(re.escape, names)) + ")$")

    def whole(self, vehicle_id: str, answer: Callable[[Step], bool] = lambda _: False) -> Walk:
        """Walk all of it and close the record; `answer` may answer a step otherwise."""
        walk_id = self.begin(vehicle_id)
        walk = self.walk(walk_id)
        assert walk.plan is not None
        for place, step in enumerate(walk.steps, 1):
            self.phone.headed(self.words.text(step.title))
            perform(self.phone, self.clock, walk.plan, step, self.words)
            if not answer(step):
                self.phone.answer(self.right(step))
            _wait(self.phone, lambda n=place: len(self.walk(walk_id).answers) >= n)
        self.phone.answer(self.words("summary-close"))
        _wait(self.phone, lambda: self.walk(walk_id).phase == "finished")
        return self.walk(walk_id)


def _wait(phone: Phone, done: Callable[[], bool]) -> None:
    for _ in range(int(PATIENCE_MS / 50)):
        if done():
            return
        phone.page.wait_for_timeout(50)
    raise AssertionError("The answer never came to be known.")


@contextmanager
def walking(
    chromium: Browser,
    folder: Path,
    kind: type[Phone] = Phone,
    *,
    size: str = "phone",
    words: Words = ENGLISH,
    text: int = 100,
    still: bool = False,
    **settings: object,
) -> Iterator[Walking]:
    """A phone of this kind at an app of its own.

    Args:
        text: how large its text is, percent.
        still: it asks pages to move nothing.
        settings: what is set in the app.
    """
    clock, width_height = FakeClock(), SIZES[size]
    timing = Timing(dead_s=0.0)
    voice = BriefVoice(folder / "speech")
    context = chromium.new_context(
        viewport={"width": width_height[0], "height": width_height[1]},
        has_touch=True,
        reduced_motion="reduce" if still else "no-preference",
    )
    try:
        with served(folder / "data", clock, voice, timing=timing) as app:
            app.parts.store.change_settings({"language": words.language, "who": "Ana", **settings})
            phone = kind(context.new_page(), 0.0)
            if text != 100:
                kept = f"localStorage.setItem('flutter.walkaround.text_percent', '\"{text}\"')"
                phone.page.add_init_script(kept)
            yield Walking(phone, app, clock, words)
    finally:
        context.close()


def all_ok(walk: Walk) -> bool:
    return all(each.answer == "ok" for each in walk.answers.values()) and len(walk.answers) > 5


def test_a_whole_walk_in_spanish_at_twice_the_text_with_nothing_moving(
    chromium: Browser, tmp_path: Path
) -> None:
    with walking(chromium, tmp_path, words=SPANISH, text=200, still=True) as spanish:
        walk = spanish.whole(SEMITRAILER)
        assert spanish.phone.page.evaluate("document.documentElement.style.fontSize") == "32px"
        assert all_ok(walk)


def test_a_whole_walk_by_keyboard_alone(chromium: Browser, tmp_path: Path) -> None:
    with walking(chromium, tmp_path, KeyboardPhone) as keyboard:
        assert all_ok(keyboard.whole(TOOL_TRAILER))


def test_a_whole_walk_by_the_names_that_screen_readers_say(
    chromium: Browser, tmp_path: Path
) -> None:
    with walking(chromium, tmp_path, NamesPhone) as names:
        assert all_ok(names.whole(TOOL_TRAILER))


def test_a_whole_walk_with_one_thumb_on_a_small_phone(chromium: Browser, tmp_path: Path) -> None:
    with walking(chromium, tmp_path, ThumbPhone, size="small phone") as thumb:
        assert all_ok(thumb.whole(TOOL_TRAILER))


def test_a_whole_walk_with_sound_off(chromium: Browser, tmp_path: Path) -> None:
    with walking(chromium, tmp_path, voice=False) as silent:
        assert all_ok(silent.whole(TOOL_TRAILER))
        assert silent.phone.sounds() == []


def test_a_whole_walk_by_a_pedal_of_two_keys_where_a_key_may_answer(
    chromium: Browser, tmp_path: Path
) -> None:
    with walking(chromium, tmp_path, KeyboardPhone) as pedal:
        phone = pedal.phone
        phone.open(pedal.app.address, "keys")
        for action, key, shown in (
            ("OK", "PageDown", "Page Down"),
            ("Defect", "PageUp", "Page Up"),
        ):
            phone.tap(f"{action}: no key")
            phone.stays(f"{action}: press its key now")
            phone.page.keyboard.press(key)
            phone.stays(f"{action}: {shown}")

        def by_pedal(step: Step) -> bool:
            walk_id, before = phone.walk_id, len(pedal.walk(phone.walk_id).answers)
            # Where many lamps are answered by one press, the first one has them said.
            for _ in range(3 if step.hands_free else 0):
                phone.page.wait_for_timeout(1000 * TWICE_S + 100)
                phone.page.keyboard.press("PageDown")
                phone.at_rest(500)
                if len(pedal.walk(walk_id).answers) > before:
                    break
            return step.hands_free

        walk = pedal.whole(TOOL_TRAILER, by_pedal)
        assert all_ok(walk)
        given = [event for event in walk.events if isinstance(event, Answered)]
        by_key = [event.step for event in given if event.by == "key"]
        assert by_key == [step.id for step in walk.steps if step.hands_free]
        assert by_key
