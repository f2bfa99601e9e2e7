"""The process that hears, seen from outside: by a script that answers, dies or hangs."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Iterator

import pytest

from walkaround.recognition.frames import RELEASE
from walkaround.recognition.process import HearingProcess
from walkaround.spoken_answers.heard_text import HeardText

SCRIPT = """
import json, struct, sys
head = struct.Struct("<IBI")
print("{}", flush=True)
texts = {}
while len(got := sys.stdin.buffer.read(head.size)) == head.size:
    press, kind, length = head.unpack(got)
    body = sys.stdin.buffer.read(length)
    if kind == 0:
        texts[press] = json.loads(body)["texts"]
    if kind == 2:
        {then}
"""
ANSWERS = """print(json.dumps({"press": press, "heard": {"text": texts[press][0]}}), flush=True)"""

NONSENSE = """print('{"press": 1, "heard": {"lead": "?"}}\\n[1]\\n?', flush=True); sys.exit()"""


class Told:
    """Waits for what was said."""

    def __init__(self) -> None:
        self.said: list[HeardText | None] = []
        self._come = threading.Event()

    def __call__(self, heard: HeardText | None) -> None:
        self.said.append(heard)
        self._come.set()

    def wait(self) -> HeardText | None:
        assert self._come.wait(20)
        self._come.clear()
        return self.said[-1]


@pytest.fixture
def process(request: pytest.FixtureRequest) -> Iterator[HearingProcess]:
    script = SCRIPT.replace("{then}", request.param)
    made = HearingProcess([sys.executable, "-c", script])
    yield made
    made.close()
    _ended(made)


def _ended(process: HearingProcess) -> None:
    for _ in range(500):
        if process._process is None:
            return
        time.sleep(0.02)
    raise AssertionError("the process goes on")


@pytest.mark.parametrize("process", [ANSWERS], indirect=True)
def test_each_press_gets_its_own_answer(process: HearingProcess) -> None:
    first, second = Told(), Told()
    one = process.begin(["One"], (), b"\0" * 100, first)
    two = process.begin(["Two"], (), b"\0" * 100, second)
    process.sound(two, b"\0" * 1280)
    process.release(two)
    process.release(one)
    assert (first.wait(), second.wait()) == (HeardText(text="One"), HeardText(text="Two"))


@pytest.mark.parametrize("process", [ANSWERS], indirect=True)
def test_a_press_that_was_dropped_is_answered_by_nothing(process: HearingProcess) -> None:
    dropped, told = Told(), Told()
    press = process.begin(["Dropped"], (), b"", dropped)
    process.drop(press)
    process._put(press, RELEASE)
    process.release(process.begin(["Other"], (), b"", told))
    assert told.wait() == HeardText(text="Other")
    assert dropped.said == []


@pytest.mark.parametrize("process", ["sys.exit(3)"], indirect=True)
def test_a_crash_is_told_and_the_next_press_starts_it_anew(
    process: HearingProcess, caplog: pytest.LogCaptureFixture
) -> None:
    for _ in range(2):
        told = Told()
        process.release(process.begin(["One"], (), b"", told))
        assert told.wait() is None
        _ended(process)
    assert caplog.text.count("ended by itself") == 2


@pytest.mark.parametrize("process", [NONSENSE], indirect=True)
def test_nonsense_is_no_answer(process: HearingProcess, caplog: pytest.LogCaptureFixture) -> None:
    told = Told()
    process.release(process.begin(["One"], (), b"", told))
    assert told.wait() is None
    assert caplog.text.count("makes no sense") == 3


def test_one_that_cannot_be_started_is_told_as_one_that_ended() -> None:
    process, told = HearingProcess(["/nowhere/at/all"]), Told()
    process.begin(["One"], (), b"", told)
    assert told.wait() is None
