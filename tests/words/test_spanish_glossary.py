"""Trade terms are called alike in all that is said in Spanish, and each has its source."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator

import pytest

from walkaround.disk.locations import shipped
from walkaround.library.languages import checklist_texts

LINES = (shipped() / "es" / "glossary.csv").read_text(encoding="utf-8").splitlines()
TEXTS = checklist_texts("es")
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))


def forms(cell: str) -> list[str]:
    return cell.split(" / ")


def without_it(row: dict[str, str]) -> Iterator[tuple[str, str]]:
    """The texts that have the English term and none of the forms of the Spanish one."""
    english = re.compile(
        rf"(?i)(?<![\w-])(?:{'|'.join(map(re.escape, forms(row['english'])))})s?\b"
    )
    spanish = re.compile(rf"(?i)\b(?:{'|'.join(map(re.escape, forms(row['spanish'])))})\b")
    for (id_, written), text in TEXTS.items():
        if english.search(written) and not spanish.search(text):
            yield id_, text


def test_every_term_has_a_source_and_says_whether_it_was_read() -> None:
    assert len(ROWS) > 50
    assert {row["provenance"] for row in ROWS} == {"read", "memory"}
    assert all(row["source"] for row in ROWS)
    terms = [term for row in ROWS for term in forms(row["english"])]
    assert len(set(terms)) == len(terms)


@pytest.mark.parametrize("row", ROWS, ids=[row["english"] for row in ROWS])
def test_a_term_is_called_so_wherever_a_checklist_names_it(row: dict[str, str]) -> None:
    assert list(without_it(row)) == []
