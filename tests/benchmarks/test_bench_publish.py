"""Publishing very many facts, beside psql's COPY of the same rows. Prints ratios.

The walks are whole ones with findings. psql (PostgreSQL's own client, in C) copies rows that stand
ready in a file into a table with the same key. A publisher reads the walks, checks their seals and
folds them into facts first, and puts the rows beside those that are there. Publishing again what is
there costs little.
"""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from time import perf_counter

import psycopg
from benchmarks.conftest import Rounds
from support.english import ENGLISH
from support.handed_over import with_findings
from support.manywalks import fill
from support.postgres import address, programs, server
from support.shops import Shop

from walkaround.report.facts import report_facts

FACTS, FEW = 1_000_000, 1_500

_PUBLISHING = """
import re, sys
from pathlib import Path
from walkaround.fleet.publish import publish
def most_kb():
    return int(re.search("VmHWM:\\s*([0-9]+)", Path("/proc/self/status").read_text())[1])
before, data = most_kb(), Path(sys.argv[2])
done = publish(sys.argv[1], data)
print(done.facts, most_kb() - before)
"""


def test_publishing_many_facts(tmp_path: Path, rounds: Rounds) -> None:
    count = rounds(FACTS, FEW)
    with server() as folder:
        kilobytes, walk = dict[int, int](), with_findings()
        facts_of_one = len(list(report_facts(walk, ENGLISH)))
        for share in (4, 1):
            walks = count // share // facts_of_one + 1
            shop = Shop(tmp_path / f"north_{share}", "Depot North")
            fill(shop.data, walks, 33, like=walk)
            with psycopg.connect(address(folder), autocommit=True) as link:
                link.execute(f"CREATE DATABASE of_{share}")
            database = address(folder, f"of_{share}")
            began = perf_counter()
            facts, kilobytes[share] = _published(database, shop)
            publish_s = perf_counter() - began
            assert facts >= count // share
        began = perf_counter()
        assert _published(database, shop)[0] == 0
        again_s = perf_counter() - began
        copy_s, copy_kb, bytes_each = _copied(database, tmp_path, facts)
    print(f"\n{facts:,} facts of {walks:,} walks, {bytes_each:.0f} bytes each in the database:")
    print(f"  psql's COPY of facts and events: {copy_s:.1f} s, {copy_kb / 1e3:.0f} MB of memory")
    print(f"  published in {publish_s:.1f} s, {publish_s / copy_s:.1f} times as long")
    print(f"  published again in {again_s:.1f} s")
    print(
        f"  memory above the start: {kilobytes[4] / 1e3:.0f} MB for a quarter,"
        f" {kilobytes[1] / 1e3:.0f} MB for all"
    )


def _published(database: str, shop: Shop) -> tuple[int, int]:
    run = [sys.executable, "-c", _PUBLISHING, database, str(shop.data)]
    done = subprocess.run(
        run, capture_output=True, text=True, check=True, cwd=Path(__file__).parents[1]
    )
    facts, kilobytes = done.stdout.split()
    return int(facts), int(kilobytes)


def _copied(database: str, folder: Path, facts: int) -> tuple[float, int, float]:
    """Copy the same rows with psql into tables with the same keys.

    Returns:
        Seconds, the most memory that psql took in kilobytes, and bytes a fact takes there.
    """
    seconds, most_kb = 0.0, 0
    for table in ("facts", "events"):
        file, to = folder / f"{table}.copy", f"copied_{table}"
        like = f"CREATE TABLE {to} (LIKE walkaround.{table} INCLUDING ALL)"
        _psql(database, f"\\copy walkaround.{table} TO '{file}'")
        _psql(database, like)
        began = perf_counter()
        most_kb = max(most_kb, _psql(database, f"\\copy {to} FROM '{file}'"))
        seconds += perf_counter() - began
    with psycopg.connect(database) as link:
        size = "SELECT pg_total_relation_size('copied_facts'), (SELECT count(*) FROM copied_facts)"
        size_bytes, copied = link.execute(size).fetchall()[0]
    assert copied == facts
    return seconds, most_kb, size_bytes / facts


def _psql(database: str, command: str) -> int:
    run = ["/usr/bin/time", "-f", "%M"] if Path("/usr/bin/time").exists() else []
    psql = [str(programs() / "psql"), database, "-q", "-v", "ON_ERROR_STOP=1", "-c", command]
    told = subprocess.run([*run, *psql], capture_output=True, text=True, check=True).stderr
    taken = re.search(r"([0-9]+)\s*$", told)
    return int(taken[1]) if taken else 0
