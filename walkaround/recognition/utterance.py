"""The utterance in the sound of one press of the talk button: where a voice begins and ends.

The sound begins before the press, since people speak as they press. A voice that is still speaking
at the release is heard to its end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np

from walkaround.recognition.frames import HZ

WINDOW = 512
"""Samples that are judged at a time: 32 ms."""
_WINDOW_S = WINDOW / HZ
_QUIET_S = 0.3
"""Silence after a voice that ends the utterance."""
_SHORTEST_S = 0.2
"""The shortest utterance: a blow or a click is shorter."""
_LONGEST_S = 4.5
"""The longest utterance: whatever is longer is a conversation."""
_LATE_S, _LATEST_S = 0.5, 1.6
"""How long after the release a voice may begin, since sound is on its way, and may end."""
_PATIENCE_S = 10.0
"""A button held this long without a word was forgotten, or its release was lost."""
_BEFORE, _AFTER = 5, 6
"""Windows added before and after a voice: its first and last sounds are faint."""


class Utterance(NamedTuple):
    """What was said during one press.

    Attributes:
        sound: samples from -1 to 1 at `HZ`, one dimension; None if nothing was said, or too much.
        seconds: how long the voice lasted.
    """

    sound: np.ndarray | None
    seconds: float = 0.0


class UtteranceDetector:
    """Finds the utterance in the sound of one press."""

    def __init__(self, is_voice: Callable[[np.ndarray], float], before: np.ndarray) -> None:
        """Begin a press.

        Args:
            is_voice: tells how likely a voice is in `WINDOW` samples, from 0 to 1.
            before: samples from -1 to 1 from before the press.
        """
        self._is_voice = is_voice
        self._remainder = np.zeros(0, np.float32)
        self._windows: list[np.ndarray] = []
        self._first_voiced = self._last_voiced = -1
        self._released_s: float | None = None
        for window in self._windows_of(before):
            self._judge(window)
        if self._first_voiced >= 0 and self._silence_s > _QUIET_S:
            # It was over before the press, so it was not said to the app.
            self._first_voiced = -1

    def feed(self, samples: np.ndarray) -> Utterance | None:
        """Add the next samples; return the utterance once it is over, which ends the press."""
        for window in self._windows_of(samples):
            self._judge(window)
            if self._released_s is not None:
                self._released_s += _WINDOW_S
            if (utterance := self._finished()) is not None:
                return utterance
        return None

    def release(self) -> None:
        """Note that the button was released."""
        self._released_s = 0.0

    def _windows_of(self, samples: np.ndarray) -> Iterator[np.ndarray]:
        self._remainder = np.concatenate([self._remainder, samples.astype(np.float32)])
        while len(self._remainder) >= WINDOW:
            window, self._remainder = self._remainder[:WINDOW], self._remainder[WINDOW:]
            yield window

    def _judge(self, window: np.ndarray) -> None:
        self._windows.append(window)
        if self._is_voice(window) >= 0.5:
            self._last_voiced = len(self._windows) - 1
            if self._first_voiced < 0:
                self._first_voiced = self._last_voiced

    @property
    def _silence_s(self) -> float:
        return (len(self._windows) - 1 - self._last_voiced) * _WINDOW_S

    def _finished(self) -> Utterance | None:
        since_s = self._released_s
        if self._first_voiced < 0:
            held_s = len(self._windows) * _WINDOW_S
            is_over = held_s > _PATIENCE_S if since_s is None else since_s > _LATE_S
            return Utterance(None) if is_over else None
        seconds = (self._last_voiced - self._first_voiced + 1) * _WINDOW_S
        is_late = since_s is not None and since_s > _LATEST_S
        if seconds > _LONGEST_S:
            return Utterance(None, seconds)
        if not (is_late or self._silence_s > _QUIET_S):
            return None
        begin, end = max(0, self._first_voiced - _BEFORE), self._last_voiced + 1 + _AFTER
        self._first_voiced = -1
        if seconds < _SHORTEST_S:
            return None
        return Utterance(np.concatenate(self._windows[begin:end]), seconds)
