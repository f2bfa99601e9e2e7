"""The tables that come with the app can be read, every row of them."""

from __future__ import annotations

from walkaround.disk.locations import shipped
from walkaround.library.standard_tables import standard_tables


def test_every_row_of_both_tables_is_read() -> None:
    def count(name: str) -> int:
        lines = (shipped() / name).read_text(encoding="utf-8").splitlines()
        return sum(not line.startswith("#") for line in lines) - 1

    tables = standard_tables()
    assert len(tables.bulbs) == count("bulbs.csv")
    # One row is the rule for what the others do not list.
    assert len(tables.strokes.rows) == count("pushrod_stroke_limits.csv") - 1
    assert tables.strokes.unlisted.share == 0.8  # 49 CFR 393.47(e)(2), read


# 49 CFR 393.47(e)(1) tables (from memory).
def test_the_chambers_of_49_cfr_393_47_are_known() -> None:
    types = standard_tables().strokes.types
    assert types("clamp") == ("6", "9", "12", "16", "20", "24", "30", "36")
    assert types("clamp", long_stroke=True) == ("12", "16", "20", "24", "30")
    assert types("bolt") == tuple("ABCDEFG")
    assert types("roto") == ("9", "12", "16", "20", "24", "30", "36", "50")
    assert types("dd3") == ("30",)
    assert not types("dd3", long_stroke=True)
