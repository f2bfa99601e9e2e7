"""The tables that come with the app can be read, every row of them."""

from __future__ import annotations

from walkaround.chambers import Chamber
from walkaround.locations import shipped
from walkaround.standardtables import standard_tables


def test_every_row_of_both_tables_is_read() -> None:
    def count(name: str) -> int:
        lines = (shipped() / name).read_text(encoding="utf-8").splitlines()
        return sum(not line.startswith("#") for line in lines) - 1

    tables = standard_tables()
    assert len(tables.bulbs) == count("bulbs.csv")
    # Two rows of the stroke table differ in the rated stroke alone.
    assert len(tables.chambers) == count("pushrod_stroke_limits.csv") - 2


# 49 CFR 393.47(e)(1) tables (from memory).
def test_the_chambers_of_49_cfr_393_47_are_known() -> None:
    chambers = standard_tables().chambers
    clamp = {"6", "9", "12", "16", "20", "24", "30", "36"}
    assert {c.type for c in chambers if c.actuator == "clamp" and not c.long_stroke} == clamp
    assert {c.type for c in chambers if c.long_stroke} == {"12", "16", "20", "24", "30"}
    assert {c.type for c in chambers if c.actuator == "bolt"} == set("ABCDEFG")
    roto = {"9", "12", "16", "20", "24", "30", "36", "50"}
    assert {c.type for c in chambers if c.actuator == "roto"} == roto
    assert Chamber("dd3", "30", False) in chambers
