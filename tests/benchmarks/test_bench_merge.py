"""Bringing very many walks together, beside DuckDB reading the same lines. Prints ratios.

DuckDB is a general-purpose reader of JSON lines, written in C++; it neither checks a seal nor saves
anything. Both use one thread. What a merge adds to it is told apart: checking every seal and
signature, and writing every walk so that a power cut cannot take it back.
"""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path
from time import perf_counter

import duckdb
from benchmarks.conftest import Rounds
from support.manywalks import fill
from support.shops import Shop

from walkaround.exchange.verify import verify

MANY, FEW = 100_000, 150

_MERGING = """
import re, sys
from pathlib import Path
from support.shops import Shop
def most_kb():
    return int(re.search("VmHWM:\\s*([0-9]+)", Path("/proc/self/status").read_text())[1])
before = most_kb()
merged = Shop(Path(sys.argv[1])).merge(Path(sys.argv[2]))
print(len(merged.added), most_kb() - before)
"""


def test_bringing_many_walks_together(tmp_path: Path, rounds: Rounds) -> None:
    count = rounds(MANY, FEW)
    kilobytes = {}
    for walks in (count // 4, count):
        north = Shop(tmp_path / f"north_{walks}", "Depot North")
        fill(north.data, walks, 33)
        file = north.share(tmp_path / f"north_{walks}.zip")
        began = perf_counter()
        south = str(tmp_path / f"south_{walks}")
        done = subprocess.run(
            [sys.executable, "-c", _MERGING, south, str(file)],
            capture_output=True, text=True, check=True, cwd=Path(__file__).parents[1],
        ).stdout.split()  # fmt: skip
        merge_s = perf_counter() - began
        assert int(done[0]) == walks
        kilobytes[walks] = int(done[1])
    began = perf_counter()
    assert verify(file, {}).faults == []
    verify_s = perf_counter() - began
    with zipfile.ZipFile(file) as archive:
        archive.extract("walks.ndjson", tmp_path)
    lines = tmp_path / "walks.ndjson"
    began = perf_counter()
    reading = duckdb.connect(config={"threads": 1})
    query = "SELECT count(*), sum(len(events)) FROM read_json(?, maximum_object_size=20000000)"
    (read,) = reading.execute(query, [str(lines)]).fetchall()
    duckdb_s = perf_counter() - began
    assert read[0] == count
    megabytes = lines.stat().st_size / 1e6
    print(f"\n{count:,} walks, {megabytes:.0f} MB of lines: DuckDB reads them in {duckdb_s:.1f} s")
    print(f"  checked in {verify_s:.1f} s, {verify_s / duckdb_s:.1f} times as long")
    print(f"  merged in {merge_s:.1f} s, {merge_s / duckdb_s:.1f} times as long")
    fewer, more = kilobytes.values()
    print(
        f"  memory above the start: {fewer / 1e3:.0f} MB for a quarter, {more / 1e3:.0f} MB for all"
    )
