"""Facts counted by where they come from."""

from __future__ import annotations

from datetime import date

import pytest
from pydantic import ValidationError

from walkaround.base.provenance import Fact, Sourced, provenance_counts


def test_each_kind_is_counted_and_what_is_none_of_them_apart() -> None:
    kinds = ["read", "read", "memory", "common practice, no source", "", "read (part from memory)"]
    assert provenance_counts(Fact("row", kind, None) for kind in kinds) == {
        "read": 2,
        "memory": 1,
        "common_practice": 1,
        "none": 2,
    }


def test_a_row_says_one_of_three_kinds() -> None:
    row = Sourced(source="book 1", provenance="read", current=date(2020, 1, 2))
    assert (row.current, row.doubt) == (date(2020, 1, 2), "")
    with pytest.raises(ValidationError):
        Sourced.model_validate({"source": "book 1", "provenance": "read, height from memory"})
    with pytest.raises(ValidationError):
        Sourced.model_validate({"source": "book 1"})
