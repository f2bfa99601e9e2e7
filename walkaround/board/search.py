"""Finding walks by vehicle, plate, VIN, person, day or defect, among a hundred thousand.

What can be typed is put together once a line, and again only for lines that changed, so that a
search does nothing but look for words in texts. Titles of defects are in the reader's language:
there are few different ones, so each is read once a search, to see whether that is the same still.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from walkaround.base.message import Text
from walkaround.records.walk_line import WalkLine

MOST_READERS = 3
"""Phones may each show another language; texts in this many languages are kept at a time."""


@dataclass(frozen=True, slots=True)
class _Told:
    """What may be typed of walks, case folded, as one reader reads their defects' titles."""

    titles: Mapping[Text, str] = field(default_factory=dict)
    by_id: Mapping[str, tuple[WalkLine, str]] = field(default_factory=dict)
    lines: Sequence[WalkLine] = ()
    texts: Sequence[str] = ()

    def of(self, lines: Sequence[WalkLine], read: Callable[[Text], str]) -> _Told:
        if lines == self.lines:
            return self
        titles, by_id, texts = dict(self.titles), dict(self.by_id), list[str]()
        for line in lines:
            known, text = by_id.get(line.id, (None, ""))
            if known is not line:
                text = _typed_of(line, titles, read)
                by_id[line.id] = line, text
            texts.append(text)
        return _Told(titles, by_id, lines, texts)


def _typed_of(line: WalkLine, folded_titles: dict[Text, str], read: Callable[[Text], str]) -> str:
    titles = []
    for title in line.titles:
        if (text := folded_titles.get(title)) is None:
            text = folded_titles[title] = read(title)
        titles.append(text)
    began = line.began.astimezone().isoformat(" ", "minutes")[: len("2026-11-25 08:15")]
    told = (line.vehicle_name, line.plate, line.vin, *line.who, line.id, began)
    return "\n".join((*told, *titles)).casefold()


class WalkSearch:
    """What may be typed of each walk; any thread may search."""

    def __init__(self) -> None:
        """Start with nothing read."""
        self._told: tuple[_Told, ...] = ()

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
        before = self._as_read(read)
        searchable = before.of(lines, read)
        # Put together first, then kept, so that no other thread sees half of it.
        others = [each for each in self._told if each is not before]
        self._told = (searchable, *others[: MOST_READERS - 1])
        hits: Sequence[int] = range(len(lines))
        for word in words:
            hits = [place for place in hits if word in searchable.texts[place]]
        return [lines[place] for place in hits]

    def _as_read(self, read: Callable[[Text], str]) -> _Told:
        for told in self._told:
            if all(read(title) == text for title, text in told.titles.items()):
                return told
        return _Told()
