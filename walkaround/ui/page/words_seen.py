"""Whether all that must be read before an answer has been on this phone's screen.

The page tells how high words and their window came out, before any tap on them can reach the
server; so nothing is guessed of fonts, of languages or of the size that text is drawn in.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable

_SLACK_PX = 3.0
"""Sizes are told rounded."""


class WordsSeen:
    """The record of how far down one step's words have been seen.

    Attributes:
        crowded: whether these words came out higher than their window: a picture that shows no
            place goes, and the words get smaller, before anything has to be scrolled.
        live: whether an answer may be tapped: the words were whole on the screen, or scrolled
            through to their end.
        words_px: height of what must be read; 0 until it is told.
        window_px: height of the part of the page that words scroll in; 0 until it is told.
        read_on: scrolls these words on by a page; None before any were drawn.
    """

    def __init__(self) -> None:
        self._words, self._sight = "", tuple[float, ...]()
        self._read = self._has_keys = self._undecided = self.crowded = False
        self._drawn = 0
        self.live = True
        self.read_on: Callable[[], Awaitable[None]] | None = None
        self.words_px = self.window_px = self._down_to_px = 0.0

    def begin(self, words: str, sight: tuple[float, ...] = (), *, has_keys: bool = False) -> None:
        """Begin with these words, unless they are the ones that stand there.

        Args:
            words: which ones.
            sight: width and height of the page, and how large it draws text; in another one the
                same words may have room.
            has_keys: whether keys or choices of the step's own stand below them.
        """
        is_new = words != self._words
        if is_new:
            self._words, self._read, self.live, self.crowded = words, False, True, False
            # What was told of the window before goes too: other answers leave it another height.
            self.words_px = self.window_px = self._down_to_px = 0.0
        if sight != self._sight:
            self._sight, self.crowded = sight, False
            is_new = True
        self._has_keys = has_keys
        if is_new and has_keys:
            self._measure_anew()

    def _measure_anew(self) -> None:
        """Have words above keys told anew, with the keys below them."""
        self._drawn += 1
        self.words_px = self.window_px = self._down_to_px = 0.0
        self.live = self._undecided = True

    @property
    def words_id(self) -> str:
        """Which words they are, as they are drawn now: what is told of others counts no more."""
        return f"{self._words}_{self._drawn}" if self._has_keys else self._words

    @property
    def at_end(self) -> bool:
        """Whether the end of the words is known to be on the screen."""
        if not (self.words_px and self.window_px):
            return False
        shown_px = max(self._down_to_px, self.window_px)
        return self.words_px <= shown_px + _SLACK_PX

    def came_out(self, words_id: str, px: float) -> bool:
        """Take note of how high these words are; return whether that changes what is live."""
        if words_id == self.words_id:
            self.words_px, self._undecided = px, True
        return self._changes()

    def opened(self, words_id: str, px: float) -> bool:
        """Take note of how high their window is; return whether that changes what is live."""
        if words_id == self.words_id:
            self.window_px = px
        return self._changes()

    def _changes(self) -> bool:
        if not (self.words_px and self.window_px):
            return False
        before = self.live, self.crowded
        crowded = self.crowded or self.words_px > self.window_px + _SLACK_PX
        if not self._has_keys:
            self.live, self.crowded = self._read or self.at_end, crowded
        elif self._undecided and crowded != self.crowded:
            self.crowded = True
            self._measure_anew()
        elif self._undecided:
            # Once: other keys may leave less room later, and without any there is more.
            self.live, self._undecided = self._read or (self.live and self.at_end), False
        return before != (self.live, self.crowded)

    def scrolled(self, words_id: str, down_to_px: float) -> bool:
        """Take note of how far down the words were seen; return whether what is live changes."""
        if words_id == self.words_id:
            self._down_to_px = max(self._down_to_px, down_to_px)
        return self.at_end and self.finish()

    def finish(self) -> bool:
        """Take the words as read; return whether that changes what is live."""
        before, self._read, self.live = self.live, True, True
        return not before
