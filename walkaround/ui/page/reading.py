"""Whether what must be read before an answer has been whole on this phone's screen.

The page tells how high words and their window came out, before any tap on them can reach the
server; so nothing is guessed of fonts, of languages or of the size that text is drawn in.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable

_SLACK_PX = 3.0
"""Sizes are told rounded."""


class Reading:
    """How far down one step's words have been seen.

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
        self._of, self._sight = "", tuple[float, ...]()
        self._read = self.crowded = False
        self.live = True
        self.read_on: Callable[[], Awaitable[None]] | None = None
        self.words_px = self.window_px = self._down_to_px = 0.0

    def begin(self, of: str, sight: tuple[float, ...] = ()) -> None:
        """Begin with these words, unless they are the ones that stand there.

        Args:
            of: which words.
            sight: width and height of the page, and how large it draws text; in another one the
                same words may have room.
        """
        if sight != self._sight:
            self._sight, self.crowded = sight, False
        if of != self._of:
            self._of, self._read, self.live, self.crowded = of, False, True, False
            self.words_px = self._down_to_px = 0.0

    @property
    def at_end(self) -> bool:
        """Whether the end of the words is on the screen."""
        shown_px = max(self._down_to_px, self.window_px)
        return self.words_px <= shown_px + _SLACK_PX

    def came_out(self, of: str, px: float) -> bool:
        """Take note of how high these words are; whether that changes what is live."""
        if of == self._of:
            self.words_px = px
        return self._changes()

    def opened(self, px: float) -> bool:
        """Take note of how high their window is; whether that changes what is live."""
        self.window_px = px
        return self._changes()

    def _changes(self) -> bool:
        if not (self.words_px and self.window_px):
            return False
        before = self.live, self.crowded
        self.live = self._read or self.at_end
        self.crowded = self.crowded or self.words_px > self.window_px + _SLACK_PX
        return before != (self.live, self.crowded)

    def scrolled(self, of: str, down_to_px: float) -> bool:
        """Take note of how far down these words were seen; whether that changes what is live."""
        if of == self._of:
            self._down_to_px = max(self._down_to_px, down_to_px)
        return self.at_end and self.finish()

    def finish(self) -> bool:
        """Take the words as read; whether that changes what is live."""
        before, self._read, self.live = self.live, True, True
        return not before
