"""Finding walks by vehicle, plate, VIN, person, day or defect, among a hundred thousand.

What can be typed is put together once a line, and again only for lines that changed, so that a
search does nothing but look for words in texts. Titles of defects are in the reader's language:
there are few different ones, so each is read once a search, to see whether that is the same still.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from threading import Lock

from walkaround.base.message import Text
from walkaround.records.walk_line import WalkLine

MOST_READERS = 3
"""Phones may each show another language; of so many at the same time nothing is read twice."""


@dataclass(slots=True)
class _Told:
    """What may be typed of walks, case folded, as one reader reads their defects' titles."""

    titles: dict[Text, str] = field(default_factory=dict)
    by_id: dict[str, tuple[WalkLine, str]] = field(default_factory=dict)
    lines: Sequence[WalkLine] = ()
    texts: Sequence[str] = ()

    def of(self, lines: Sequence[WalkLine], read: Callable[[Text], str]) -> Sequence[str]:
        if lines != self.lines:
            self.lines, self.texts = lines, [self._of(line, read) for line in lines]
        return self.texts

    def _of(self, line: WalkLine, read: Callable[[Text], str]) -> str:
        known = self.by_id.get(line.id)
        if known is not None and known[0] is line:
            return known[1]
        titles = []
        for title in line.titles:
            if (text := self.titles.get(title)) is None:
                text = self.titles[title] = read(title)
            titles.append(text)
        began = line.began.astimezone().isoformat(" ", "minutes")[: len("2026-11-25 08:15")]
        told = (line.vehicle_name, line.plate, line.vin, *line.who, line.id, began)
        text = "\n".join((*told, *titles)).casefold()
        self.by_id[line.id] = line, text
        return text


class WalkSearch:
    """What may be typed of each walk; any thread may search."""

    def __init__(self) -> None:
        """Start with nothing read."""
        self._told: list[_Told] = []
        self._lock = Lock()

    def find(
        self, lines: Iterable[WalkLine], typed: str, read: Callable[[Text], str]
    ) -> Sequence[WalkLine]:
        """List the lines of which each typed word stands somewhere, in their order.

        Args:
            lines: to look among.
            typed: words, or parts of them; with none every line is found.
            read: turns a defect's title into text.
        """
        lines, words = tuple(lines), typed.casefold().split()
        if not words:
            return lines
        with self._lock:
            texts = self._as_read(read).of(lines, read)
        hits: Sequence[int] = range(len(lines))
        for word in words:
            hits = [place for place in hits if word in texts[place]]
        return [lines[place] for place in hits]

    def _as_read(self, read: Callable[[Text], str]) -> _Told:
        for told in self._told:
            if all(read(title) == text for title, text in told.titles.items()):
                return told
        self._told = [_Told(), *self._told[: MOST_READERS - 1]]
        return self._told[0]
