"""Circuits lit together: one tap for all of them, live once they have been named."""

from __future__ import annotations

import wave
from pathlib import Path

import pytest
from support.english import ENGLISH

from browser.allsizes import words_on
from browser.phone import Phone
from browser.seeds import SEMITRAILER, place_of, plan_for, walked
from browser.serving import Served
from walkaround.settings import RATES_WPM
from walkaround.voice.clips import RenderedVoice
from walkaround.words.prompts import prompt

pytestmark = pytest.mark.browser

NEXT = "load_rear"
MOST_FREE_PX = 60
"""A line and a half of words."""


@pytest.fixture
def voice(tmp_path: Path) -> RenderedVoice:
    """Real speech: its length is what is waited for."""
    return RenderedVoice(tmp_path / "speech")


def test_one_tap_answers_many_lamps_once_they_have_been_named(app: Served, phone: Phone) -> None:
    plan = plan_for(app.parts, SEMITRAILER, "lamps", together=True)
    bad = {"look_1_front": {"clearance_front_left": "dark"}}
    walk_id = walked(app.parts, SEMITRAILER, NEXT, scope="lamps", together=True, bad=bad)
    step = plan.step(NEXT)
    assert step is not None
    app.parts.store.change_settings({"rate_wpm": max(RATES_WPM)})
    phone.open(app.address, f"walk/{walk_id}")
    phone.at(place_of(plan, NEXT), str(step.title))
    phone.stays("Listen")
    # Beside the bar of the open defect the picture takes what its words leave.
    phone.stays("1 open defect")
    words_end = max(box.y + box.height for box in words_on(phone.page))
    assert 0 <= phone.box("Listen").y - words_end < MOST_FREE_PX
    spoken = ENGLISH.spoken(prompt(step, plan.power, "short", ENGLISH).say)
    said = app.parts.voice.digest(spoken, max(RATES_WPM))
    phone.heard(said)
    clip = app.parts.voice.file(said)
    assert clip is not None
    with wave.open(str(clip)) as sound:
        takes_s = sound.getnframes() / sound.getframerate()
    phone.button("All good").wait_for(timeout=1000 * (takes_s + 20))
    phone.answer("All good")
    phone.at(place_of(plan, NEXT) + 1)
    assert app.parts.open_walks.walk(walk_id).answers[NEXT].answer == "ok"
