"""Spoken answers in the real page: its microphone hears a clip again and again.

The zone is held, then a learnt key; the process that hears is the real one. Needs the extra
`recognition` and what `tests/support/spoken_trials.py` names.
"""

from __future__ import annotations

import re
import wave
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page, sync_playwright
from support.talkers import OTHERS, missing, says
from support.voices import BriefVoice
from support.walks import FakeClock
from support.workshop import HZ, spoken_in_noise

from browser.chromium import CHROMIUM, FLAGS
from browser.phone import Phone
from browser.serving import Served, served
from walkaround.plan.plan_walk import plan_walk
from walkaround.recognition.process import is_installed
from walkaround.spoken_answers.phrases import PHRASES
from walkaround.walk.events import Answered

pytestmark = [
    pytest.mark.browser,
    pytest.mark.soak,
    pytest.mark.skipif(
        bool(missing()) or not is_installed(), reason=f"the extra `recognition`, or {missing()}"
    ),
]
Do = Callable[[], None]
TRIES = 5
"""A press may begin in the middle of the clip."""


@pytest.fixture
def app(tmp_path: Path) -> Iterator[Served]:
    with served(tmp_path / "data", FakeClock(step_s=0.5), BriefVoice(tmp_path / "speech")) as app:
        app.parts.store.change_settings({"who": "Kim", "talk": True})
        yield app


@pytest.fixture
def page(tmp_path: Path) -> Iterator[Page]:
    """A page whose microphone hears that all is well, and a pause, for ever."""
    clip = tmp_path / "microphone.wav"
    said = spoken_in_noise(says(OTHERS[4], PHRASES["ok"]), 20.0, 3)
    with wave.open(str(clip), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(HZ)
        out.writeframes((np.concatenate([said, said[:HZ]]) * 32767).astype("<i2").tobytes())
    microphone = (
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        f"--use-file-for-fake-audio-capture={clip}",
    )
    with sync_playwright() as playwright:
        flags = [*FLAGS, *microphone]
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=flags)
        context = browser.new_context(viewport={"width": 412, "height": 915}, has_touch=True)
        context.grant_permissions(["microphone"])
        yield context.new_page()
        browser.close()


def answered(app: Served, walk_id: str) -> list[Answered]:
    events = app.parts.open_walks.walk(walk_id).events
    return [event for event in events if isinstance(event, Answered)]


def test_the_zone_and_a_learnt_key_are_held_while_one_talks(app: Served, page: Page) -> None:
    library = app.parts.library
    vehicle = next(each for each in library.vehicles if each.id == "sandbag_semitrailer_7")
    whole = plan_walk(vehicle, library.rules, scope="lamps")
    looks = tuple(step for step in whole.steps if step.hands_free)[:3]
    plan = whole.model_copy(update={"steps": looks})
    walk_id = app.parts.open_walks.begin(plan, "Kim")
    phone = Phone(page)
    phone.open(app.address, f"walk/{walk_id}")
    phone.sees(re.compile("Hold and talk"))
    box = page.get_by_text("Hold and talk").first.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 40, box["y"] + 20)
    _held(app, walk_id, 1, page, page.mouse.down, page.mouse.up)
    phone.tap("More")
    phone.tap("Keys and pedals")
    phone.tap("Hold to talk: no key")
    page.keyboard.press("F9")
    phone.stays("Hold to talk: F9")
    phone.tap("Back")
    phone.tap("Back")
    phone.sees(re.compile("Hold and talk"))
    _held(app, walk_id, 2, page, lambda: page.keyboard.down("F9"), lambda: page.keyboard.up("F9"))
    assert {(each.answer, each.by) for each in answered(app, walk_id)} == {("ok", "voice")}


def _held(app: Served, walk_id: str, count: int, page: Page, down: Do, up: Do) -> None:
    """Hold it, and again if that began too late, until there are so many answers."""
    for _ in range(TRIES):
        down()
        for _ in range(40):
            page.wait_for_timeout(100)
            if len(answered(app, walk_id)) == count:
                break
        up()
        page.wait_for_timeout(1500)
        if len(answered(app, walk_id)) == count:
            return
    raise AssertionError("nothing was understood")
