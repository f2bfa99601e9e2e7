"""Finding walks by vehicle, plate, VIN, person, day or defect, among a hundred thousand.

What can be typed is put together once a line, and again only for lines that changed, so that a
search does nothing but look for words in texts. Titles of defects are in the reader's language:
there are few different ones, so each is read once a search.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from walkaround.base.message import Text
from walkaround.records.walk_line import WalkLine


class WalkSearch:
    """What may be typed of each walk; any thread may search."""

    def __init__(self) -> None:
        """Start with nothing read."""
        self._told: dict[str, tuple[WalkLine, str]] = {}

    def find(
        self, lines: Iterable[WalkLine], typed: str, read: Callable[[Text], str]
    ) -> Sequence[WalkLine]:
        """List the lines of which each typed word stands somewhere, in their order.

        Args:
            lines: to look among.
            typed: words, or parts of them; with none every line is found.
            read: turns a defect's title into text.
        """
        words = typed.casefold().split()
        if not words:
            return tuple(lines)
        titles: dict[Text, str] = {}
        hits = []
        for line in lines:
            told = self._of(line)
            missing = [word for word in words if word not in told]
            if missing and line.titles:
                for title in line.titles:
                    if title not in titles:
                        titles[title] = read(title).casefold()
                missing = [
                    word for word in missing if all(word not in titles[t] for t in line.titles)
                ]
            if not missing:
                hits.append(line)
        return hits

    def _of(self, line: WalkLine) -> str:
        known = self._told.get(line.id)
        if known is not None and known[0] is line:
            return known[1]
        began = line.began.astimezone()
        told = "\n".join(
            (line.vehicle_name, line.plate, line.vin, *line.who, line.id, f"{began:%Y-%m-%d %H:%M}")
        ).casefold()
        self._told[line.id] = line, told
        return told
