"""A message of English that changes is noticed in every other language."""

from __future__ import annotations

import pytest
from support.made_from import changed, digests, made_from

from walkaround.library.languages import languages


@pytest.mark.parametrize("language", [each for each in languages() if each != "en"])
def test_every_message_was_made_from_the_english_of_today(language: str) -> None:
    late = changed(made_from(language), digests(), set(digests(language)))
    assert not late, f"translate anew, then: python -m support.made_from {language} {late}"


def test_a_message_whose_english_changes_is_late_and_a_new_one_too() -> None:
    english, made = {"go": "1", "stop": "2", "new": "3"}, {"go": "1", "stop": "9", "gone": "4"}
    assert changed(made, english, {"go", "stop", "new"}) == ["gone", "new", "stop"]
