"""The real server, killed while a real browser's taps are under way: no answer lost or doubled."""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from threading import Timer

import pytest
from browser.chromium import launched
from browser.phone import PATIENCE_MS, RIGHT, Phone, in_hand
from browser.seeds import NAMES, SEMITRAILER
from browser.serving import Command
from playwright.sync_api import expect

from walkaround.records.reader import WalkReader
from walkaround.timing import Timing
from walkaround.walk.events import Answered

pytestmark = pytest.mark.soak

KILLS = 20
SEED = 20
WITHIN_S = 0.4
"""The server dies at most so long after a tap begins; tap and next step take about half of it."""
STEPS = 16
"""So many steps of a walk are answered with one tap each; then another walk is begun."""
_PLACE = re.compile(r"^(?:step )?(\d+) of \d+$")


class Tapper:
    """A mechanic who answers step after step while the server is killed again and again."""

    def __init__(self, phone: Phone, command: Command, data: Path) -> None:
        self._phone = phone
        self._command = command
        self._reader = WalkReader(data)
        self._random = random.Random(SEED)
        self.walk_id = ""
        self.shown = 0
        self.answers = 0
        self.cut_short = 0

    def begin(self) -> None:
        phone = self._phone
        phone.open(self._command.address)
        phone.press(phone.card(NAMES[SEMITRAILER]))
        phone.tap("Lamps")
        phone.tap("Start the walk")
        phone.at(1)
        self.walk_id, self.shown = phone.walk_id, 1

    def kill_one(self) -> None:
        """Answer a step or two, the last one with the server dying under the tap."""
        for _ in range(self._random.randrange(2)):
            self._answer()
        self._phone.stays(RIGHT)
        self._phone.page.wait_for_timeout(1000 * Timing().dead_s + 50)
        killing = Timer(self._random.random() * WITHIN_S, self._command.kill)
        killing.start()
        self._phone.button(RIGHT).tap()
        killing.join()
        self.cut_short += self._looked_back()
        if self.shown > STEPS:
            self.begin()

    def _looked_back(self) -> bool:
        """Start the server again and compare; whether the answer under way was lost."""
        seen = self._place()
        stored = self._stored()
        # What the page showed as answered is stored; at most the tap under way besides.
        assert stored >= max(seen, self.shown) - 1
        assert stored <= self.shown
        with self._phone.new_screen():
            self._command.start()
        self._phone.settled()
        cut_short = stored < self.shown
        self.shown = stored + 1
        self._phone.at(self.shown)
        self.answers += not cut_short
        return cut_short

    def _answer(self) -> None:
        self._phone.answer()
        self.shown += 1
        self.answers += 1
        self._phone.at(self.shown)

    def _place(self) -> int:
        place = self._phone.page.get_by_text(_PLACE).first
        expect(place).to_be_attached(timeout=PATIENCE_MS)
        found = _PLACE.match(place.inner_text())
        assert found is not None
        return int(found[1])

    def _stored(self) -> int:
        """How many answers are on the disk; none is there twice, and nothing is damaged."""
        loaded = self._reader.load(self.walk_id)
        assert loaded.notice == ""
        answers = Counter(event.step for event in loaded.events if isinstance(event, Answered))
        assert set(answers.values()) <= {1}
        return len(answers)


@pytest.fixture
def tapper(tmp_path: Path) -> Iterator[Tapper]:
    command = Command(tmp_path / "data")
    try:
        command.start()
        with launched() as browser, in_hand(browser) as phone:
            yield Tapper(phone, command, tmp_path / "data")
    finally:
        command.stop()


def test_twenty_kills_of_the_server_under_a_browsers_taps_lose_nothing(tapper: Tapper) -> None:
    tapper.begin()
    for _ in range(KILLS):
        tapper.kill_one()
    print(
        f"\n{KILLS} kills of the server under a browser's taps: {tapper.answers} answers stored, "
        f"{tapper.cut_short} cut short before they were shown, 0 lost, 0 doubled"
    )
