"""Finding a walk among a hundred thousand by what is typed, beside SQLite matching the same texts.

Prints times and the ratio.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from statistics import median
from time import perf_counter

from benchmarks.conftest import Rounds
from support.english import ENGLISH
from support.shop import walks

from walkaround.board.search import WalkSearch
from walkaround.records.walk_line import WalkLine, line_of

MANY, FEW = 100_000, 500
TYPED = ("trailer 7 bohdan", "2026-0", "stop", "4711", "nobody at all")


def test_what_is_typed_is_found_without_waiting(rounds: Rounds) -> None:
    few, count = [line_of(walk) for walk in walks()], rounds(MANY, FEW)
    lines = [few[n % len(few)]._replace(id=f"{few[n % len(few)].id}{n}") for n in range(count)]
    search, began = WalkSearch(), perf_counter()
    search.find(lines, "a", ENGLISH.text)
    first_s = perf_counter() - began
    with closing(sqlite3.connect(":memory:")) as database:
        database.execute("CREATE TABLE walks (at, told)")
        rows = [(at, _told(line)) for at, line in enumerate(lines)]
        database.executemany("INSERT INTO walks VALUES (?, ?)", rows)
        times: dict[str, list[float]] = {"ours": [], "sqlite": []}
        for _ in range(rounds(5, 1)):
            for typed in TYPED:
                began = perf_counter()
                hits = len(search.find(lines, typed, ENGLISH.text))
                times["ours"].append(perf_counter() - began)
                words = typed.split()
                where = " AND ".join(["told LIKE '%' || ? || '%'"] * len(words))
                began = perf_counter()
                theirs = database.execute(f"SELECT at FROM walks WHERE {where}", words).fetchall()
                times["sqlite"].append(perf_counter() - began)
                assert hits == len(theirs)
    ours, sqlite = (1000 * median(times[name]) for name in ("ours", "sqlite"))
    print(f"\n{count:,} walks: the first search {1000 * first_s:.0f} ms, others {ours:.0f} ms;")
    print(f"  SQLite's LIKE {sqlite:.0f} ms; ours / SQLite = {ours / sqlite:.2f}")


def _told(line: WalkLine) -> str:
    began = line.began.astimezone()
    told = (line.vehicle_name, line.plate, line.vin, *line.who, line.id, f"{began:%Y-%m-%d %H:%M}")
    return "\n".join((*told, *map(ENGLISH.text, line.titles)))
