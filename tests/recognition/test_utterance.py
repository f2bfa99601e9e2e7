"""Where a voice begins and ends: on sound that is a voice wherever it is loud."""

from __future__ import annotations

import numpy as np
import pytest

from walkaround.recognition.frames import HZ
from walkaround.recognition.utterance import WINDOW, Utterance, UtteranceDetector

CHUNK = HZ // 25


def is_loud(window: np.ndarray) -> float:
    return float(np.abs(window).max())


def sound(*parts: tuple[float, float]) -> np.ndarray:
    """So loud for so many seconds, one after another."""
    return np.concatenate([np.full(int(s * HZ), loud, np.float32) for loud, s in parts])


def caught(
    before: np.ndarray, after: np.ndarray, release_s: float = 60.0
) -> tuple[Utterance | None, float]:
    """What comes of a press, and when, seconds from it."""
    catcher, released = UtteranceDetector(is_loud, before), False
    for at in range(0, len(after), CHUNK):
        if at / HZ >= release_s and not released:
            catcher.release()
            released = True
        if (found := catcher.feed(after[at : at + CHUNK])) is not None:
            return found, (at + CHUNK) / HZ
    return None, len(after) / HZ


SILENCE = sound((0.0, 0.5))


def test_a_voice_is_given_as_soon_as_it_has_ended_though_the_button_is_held() -> None:
    found, at_s = caught(SILENCE, sound((0.0, 0.4), (1.0, 1.0), (0.0, 3.0)))
    assert found is not None
    assert found.sound is not None
    assert found.seconds == pytest.approx(1.0, abs=2 * WINDOW / HZ)
    assert at_s == pytest.approx(0.4 + 1.0 + 0.3, abs=0.1)
    assert np.count_nonzero(found.sound) == pytest.approx(HZ, abs=WINDOW)


def test_who_speaks_before_the_press_is_heard_from_the_beginning() -> None:
    found, _ = caught(sound((0.0, 0.2), (1.0, 0.3)), sound((1.0, 0.7), (0.0, 1.0)))
    assert found is not None
    assert found.sound is not None
    assert np.count_nonzero(found.sound) == pytest.approx(HZ, abs=2 * WINDOW)


def test_what_was_over_before_the_press_is_not_heard() -> None:
    found, _ = caught(sound((1.0, 0.15), (0.0, 0.35)), sound((0.0, 0.4), (1.0, 0.6), (0.0, 1.0)))
    assert found is not None
    assert found.seconds == pytest.approx(0.6, abs=2 * WINDOW / HZ)


def test_who_lets_go_too_early_is_heard_to_the_end() -> None:
    found, at_s = caught(SILENCE, sound((0.0, 0.2), (1.0, 1.0), (0.0, 1.0)), release_s=0.5)
    assert found is not None
    assert found.seconds == pytest.approx(1.0, abs=2 * WINDOW / HZ)
    assert at_s < 1.7


def test_nothing_is_given_soon_after_a_press_without_a_word() -> None:
    found, at_s = caught(SILENCE, sound((0.0, 5.0)), release_s=1.0)
    assert found == Utterance(None)
    assert at_s == pytest.approx(1.5, abs=0.1)


def test_a_button_that_is_stuck_is_given_up() -> None:
    found, at_s = caught(SILENCE, sound((0.0, 30.0)))
    assert found == Utterance(None)
    assert at_s < 11


def test_whoever_talks_on_is_not_understood() -> None:
    found, at_s = caught(SILENCE, sound((1.0, 30.0)))
    assert found is not None
    assert found.sound is None
    assert at_s < 5


def test_a_blow_is_no_voice_and_the_press_goes_on() -> None:
    found, _ = caught(SILENCE, sound((1.0, 0.1), (0.0, 0.5), (1.0, 0.8), (0.0, 1.0)))
    assert found is not None
    assert found.seconds == pytest.approx(0.8, abs=2 * WINDOW / HZ)
