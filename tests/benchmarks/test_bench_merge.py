"""Bringing very many walks together, beside DuckDB reading the same lines, psql's COPY of the same
rows, and a bare write of the same files. Prints ratios.

DuckDB is a general-purpose reader of JSON lines, written in C++; it neither checks a seal nor saves
anything. psql copies a row an event into a table with a key, on the disk when it returns. Each uses
one thread, a merge of so many as many processes as there are CPUs. What a merge adds is told apart:
checking every seal and signature, and writing every walk to a file of its own so that a power cut
cannot take it back.
"""

from __future__ import annotations

import csv
import json
import subprocess
import sys
import zipfile
from pathlib import Path
from time import perf_counter

import duckdb
from benchmarks.conftest import Rounds
from support.manywalks import write_shared
from support.postgres import address, programs, server
from support.shops import Shop

from walkaround.disk.batch_write import write_batch
from walkaround.exchange.shop_key import ShopKey
from walkaround.exchange.verify import verify

MANY, FEW = 100_000, 150

_MERGING = """
import re, sys
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage
from support.shops import Shop
def most_kb():
    return int(re.search("VmHWM:\\s*([0-9]+)", Path("/proc/self/status").read_text())[1])
before = most_kb()
merged = Shop(Path(sys.argv[1])).merge(Path(sys.argv[2]))
print(len(merged.added), most_kb() - before, getrusage(RUSAGE_CHILDREN).ru_maxrss)
"""


def test_bringing_many_walks_together(tmp_path: Path, rounds: Rounds) -> None:
    count = rounds(MANY, FEW)
    kilobytes, own = {}, ShopKey.of(Shop(tmp_path / "north", "Depot North").data)
    for walks in (count // 4, count):
        file = tmp_path / f"north_{walks}.zip"
        write_shared(file, walks, 33, own)
        began = perf_counter()
        south = str(tmp_path / f"south_{walks}")
        done = subprocess.run(
            [sys.executable, "-c", _MERGING, south, str(file)],
            capture_output=True, text=True, check=True, cwd=Path(__file__).parents[1],
        ).stdout.split()  # fmt: skip
        merge_s = perf_counter() - began
        assert int(done[0]) == walks
        kilobytes[walks] = int(done[1]), int(done[2])
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
    copy_s, bare_s = _copied(lines), _written(lines, tmp_path / "bare")
    megabytes = lines.stat().st_size / 1e6
    print(f"\n{count:,} walks, {megabytes:.0f} MB of lines: DuckDB reads them in {duckdb_s:.1f} s")
    print(f"  checked in {verify_s:.1f} s, {verify_s / duckdb_s:.1f} times as long")
    print(
        f"  merged in {merge_s:.1f} s, {merge_s / duckdb_s:.1f} times as long,"
        f" {merge_s / copy_s:.1f} times psql's COPY of the same events ({copy_s:.1f} s)"
    )
    print(f"  the files alone, written and forced to the disk once: {bare_s:.1f} s")
    fewer, more = kilobytes.values()
    print(
        f"  memory above the start: {fewer[0] / 1e3:.0f} MB for a quarter,"
        f" {more[0] / 1e3:.0f} MB for all; the largest process that checks:"
        f" {fewer[1] / 1e3:.0f} and {more[1] / 1e3:.0f} MB in all"
    )


def _copied(lines: Path) -> float:
    """Seconds that psql takes to copy each event of these walks into a table."""
    rows = lines.with_suffix(".csv")
    with lines.open(encoding="utf-8") as walks, rows.open("w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out)
        for walk in map(json.loads, walks):
            for event in walk["events"]:
                writer.writerow((walk["walk"], event["digest"], event["seq"], json.dumps(event)))
    with server() as folder:
        psql = [str(programs() / "psql"), address(folder), "-q", "-v", "ON_ERROR_STOP=1", "-c"]
        columns = "walk TEXT, digest TEXT, seq INTEGER, body TEXT, PRIMARY KEY (walk, digest)"
        subprocess.run([*psql, f"CREATE TABLE events ({columns})"], check=True)
        began = perf_counter()
        subprocess.run([*psql, f"\\copy events FROM '{rows}' CSV"], check=True)
        return perf_counter() - began


def _written(lines: Path, folder: Path) -> float:
    """Seconds that it takes to write each walk to a file of its own, and no more than that."""
    folder.mkdir()
    began = perf_counter()
    with lines.open("rb") as walks:
        write_batch({folder / str(number): line for number, line in enumerate(walks)})
    return perf_counter() - began
