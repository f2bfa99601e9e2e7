"""Where a voice begins and ends in the sound of one press of the talk button.

The sound begins before the press, since people speak as they press; a voice that is still on at the
release is heard to its end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np

from walkaround.ears.frames import HZ

WINDOW = 512
"""Samples that are judged at a time: 32 ms."""
_WINDOW_S = WINDOW / HZ
_QUIET_S = 0.3
"""A voice that has been silent for so long has ended."""
_SHORTEST_S = 0.2
"""A blow or a click is shorter; it is no voice."""
_LONGEST_S = 4.5
"""Whatever is longer is talk."""
_LATE_S, _LATEST_S = 0.5, 1.6
"""After the release a voice may still begin so late, since sound is under way; and end so late."""
_PATIENCE_S = 10.0
"""A button that is held for so long without a word was forgotten, or its release was lost."""
_BEFORE, _AFTER = 5, 6
"""Windows around a voice that are heard with it: its first and last sounds are faint."""


class Caught(NamedTuple):
    """What was said at one press.

    Attributes:
        sound: samples from -1 to 1; none where nothing was said, or too much.
        seconds: how long the voice lasted.
    """

    sound: np.ndarray | None
    seconds: float = 0.0


class Catcher:
    """One press of one phone; `is_voice` tells how likely a voice is in a window."""

    def __init__(self, is_voice: Callable[[np.ndarray], float], before: np.ndarray) -> None:
        """Begin a press with the sound from before it."""
        self._is_voice = is_voice
        self._rest = np.zeros(0, np.float32)
        self._windows: list[np.ndarray] = []
        self._first = self._last = -1
        self._released_s: float | None = None
        for window in self._cut(before):
            self._hear(window)
        if self._first >= 0 and self._silent_s > _QUIET_S:
            # It was over before the press, so it was not meant.
            self._first = -1

    def feed(self, samples: np.ndarray) -> Caught | None:
        """Take what was heard next; give what was said once that is over, which ends the press."""
        for window in self._cut(samples):
            self._hear(window)
            if self._released_s is not None:
                self._released_s += _WINDOW_S
            if (caught := self._ended()) is not None:
                return caught
        return None

    def release(self) -> None:
        """The button was let go."""
        self._released_s = 0.0

    def _cut(self, samples: np.ndarray) -> Iterator[np.ndarray]:
        self._rest = np.concatenate([self._rest, samples.astype(np.float32)])
        while len(self._rest) >= WINDOW:
            window, self._rest = self._rest[:WINDOW], self._rest[WINDOW:]
            yield window

    def _hear(self, window: np.ndarray) -> None:
        self._windows.append(window)
        if self._is_voice(window) >= 0.5:
            self._last = len(self._windows) - 1
            if self._first < 0:
                self._first = self._last

    @property
    def _silent_s(self) -> float:
        return (len(self._windows) - 1 - self._last) * _WINDOW_S

    def _ended(self) -> Caught | None:
        since_s = self._released_s
        if self._first < 0:
            held_s = len(self._windows) * _WINDOW_S
            over = held_s > _PATIENCE_S if since_s is None else since_s > _LATE_S
            return Caught(None) if over else None
        seconds = (self._last - self._first + 1) * _WINDOW_S
        late = since_s is not None and since_s > _LATEST_S
        if seconds > _LONGEST_S:
            return Caught(None, seconds)
        if not (late or self._silent_s > _QUIET_S):
            return None
        begin, end = max(0, self._first - _BEFORE), self._last + 1 + _AFTER
        self._first = -1
        if seconds < _SHORTEST_S:
            return None
        return Caught(np.concatenate(self._windows[begin:end]), seconds)
