"""The search for walks by vehicle, plate, VIN, person, day or defect, among a hundred thousand.

The searchable text of a line is made once, and again only if the line changed, so that a search
only looks for words in texts. Titles of defects are in the reader's language: there are few
different ones, so each is translated once for a search, to check whether the texts still apply.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from walkaround.base.message import Text
from walkaround.records.walk_line import WalkLine

MOST_READERS = 3
"""How many languages to store texts in at a time: each phone may show another language."""


@dataclass(frozen=True, slots=True)
class _SearchTexts:
    """The searchable texts of walks in one language, case folded."""

    titles: Mapping[Text, str] = field(default_factory=dict)
    by_id: Mapping[str, tuple[WalkLine, str]] = field(default_factory=dict)
    lines: Sequence[WalkLine] = ()
    texts: Sequence[str] = ()

    def updated(self, lines: Sequence[WalkLine], text_of: Callable[[Text], str]) -> _SearchTexts:
        if lines == self.lines:
            return self
        titles, by_id, texts = dict(self.titles), dict(self.by_id), list[str]()
        for line in lines:
            known_line, text = by_id.get(line.id, (None, ""))
            if known_line is not line:
                text = _search_text(line, titles, text_of)
                by_id[line.id] = line, text
            texts.append(text)
        return _SearchTexts(titles, by_id, lines, texts)


def _search_text(
    line: WalkLine, folded_titles: dict[Text, str], text_of: Callable[[Text], str]
) -> str:
    titles = []
    for title in line.titles:
        if (text := folded_titles.get(title)) is None:
            text = folded_titles[title] = text_of(title)
        titles.append(text)
    began = line.began.astimezone().isoformat(" ", "minutes")[: len("2026-11-25 08:15")]
    texts = (line.vehicle_name, line.plate, line.vin, *line.who, line.id, began)
    return "\n".join((*texts, *titles)).casefold()


class WalkSearch:
    """Searches walks; any thread may use it."""

    def __init__(self) -> None:
        """Start without any texts."""
        self._search_texts: tuple[_SearchTexts, ...] = ()

    def find(
        self, lines: Iterable[WalkLine], query: str, text_of: Callable[[Text], str]
    ) -> Sequence[WalkLine]:
        """List the lines that contain every word of the query, in their order.

        Args:
            lines: the lines to search.
            query: words, or parts of them; if there are none, every line is found.
            text_of: translates the title of a defect.
        """
        lines, words = tuple(lines), query.casefold().split()
        if not words:
            return lines
        previous = self._as_read(text_of)
        searchable = previous.updated(lines, text_of)
        # Made first, then stored, so that no other thread sees an incomplete one.
        others = [each for each in self._search_texts if each is not previous]
        self._search_texts = (searchable, *others[: MOST_READERS - 1])
        hits: Sequence[int] = range(len(lines))
        for word in words:
            hits = [place for place in hits if word in searchable.texts[place]]
        return [lines[place] for place in hits]

    def _as_read(self, text_of: Callable[[Text], str]) -> _SearchTexts:
        for texts in self._search_texts:
            if all(text_of(title) == text for title, text in texts.titles.items()):
                return texts
        return _SearchTexts()
