"""Walks begun by the version whose trailers had two applications: opened, ended, printed.

`data/walks_before_one_application.tar.xz` holds fourteen of them under way, as that version left
them: each shipped vehicle with a box on shop air (a power unit too, which is not offered now) and
from the cab with a tow unit coupled. Their plans have parts, kinds and words that are not made any
more.
"""

from __future__ import annotations

import csv
import io
import json
import tarfile
from pathlib import Path
from random import Random

from support.english import ENGLISH
from support.strangewalk import answered
from support.voices import SilentVoice
from support.walks import FakeClock

from walkaround.bootstrap import build
from walkaround.records.reader import WalkReader
from walkaround.report.json_document import walk_json
from walkaround.report.tables import walk_csv
from walkaround.walk.advance import fold
from walkaround.walk.events import Answered, Finished
from walkaround.walk.state import Walk
from walkaround.words.prompts import prompt

ARCHIVE = Path(__file__).parent / "data" / "walks_before_one_application.tar.xz"


def walks(data: Path) -> dict[str, Walk]:
    reader = WalkReader(data)
    return {line.id: fold(reader.load(line.id).events) for line in reader.overview().lines}


def test_each_goes_on_to_its_end_and_is_printed(tmp_path: Path) -> None:
    with tarfile.open(ARCHIVE) as archive:
        archive.extractall(tmp_path, filter="data")
    before = walks(tmp_path)
    assert len(before) == 14
    assert {walk.phase for walk in before.values()} == {"stepping"}
    clock, chance = FakeClock(step_s=1.0), Random(12)
    parts = build(tmp_path, clock=clock, voice=SilentVoice("not needed"))
    for walk in before.values():
        assert walk.plan is not None
        last = walk.events[-1].at
        clock.mono_s, clock.boot, clock.began = last.mono_s + 60.0, last.boot, last.utc
        clock.asleep_s = last.asleep_s
        while (step := parts.open_walks.walk(walk.id).here) is not None:
            said = prompt(step, walk.plan.power, "short", ENGLISH)
            assert said.say
            assert "{" not in said.say
            answered(chance, parts, walk.id, "Ana", step)
        parts.open_walks.do(walk.id, "Ana", (Finished, {}))
    parts.close()
    for id_, walk in walks(tmp_path).items():
        assert walk.events[: len(before[id_].events)] == before[id_].events
        assert set(walk.answers) == {step.id for step in walk.steps}
        table = csv.DictReader(io.StringIO(walk_csv(walk, ENGLISH), newline=""))
        rows = [row for row in table if row["fact"] == "answer"]
        given = [event.step for event in walk.events if isinstance(event, Answered)]
        assert [row["step"] for row in rows] == given
        assert json.loads(walk_json(walk, ENGLISH))["counts"]["steps"] == len(walk.steps)
