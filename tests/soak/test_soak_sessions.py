"""Fifty phones on one server and two real browsers among them: all stored, and no long waits."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median, quantiles

import pytest
from browser.chromium import launched
from browser.phone import PATIENCE_MS, Phone, in_hand
from browser.serving import Command
from support.manywalkers import Load, lamp_walks
from support.voices import SilentVoice

from walkaround.bootstrap import build
from walkaround.plan.plan_walk import plan_walk
from walkaround.records.reader import WalkReader
from walkaround.walk.events import Answered

pytestmark = [pytest.mark.soak, pytest.mark.browser]

SESSIONS = 50
TAPS = 30
EVERY_S = 2.0
MOST_RATIO = 3.0
VEHICLE = "high_water_truck_1"

# Taps the first answer; milliseconds until the step of this number is in the page.
_TAP = """([place, most_ms]) => new Promise((done, failed) => {
  const all = (what) => [...document.querySelectorAll(what)];
  const next = new RegExp(`^${place} of \\\\d+$`);
  const there = () => all("flt-semantics, flt-semantics span")
    .some((each) => next.test(each.textContent.trim()));
  const right = /^(OK|Done)$/;
  const button = all("flt-semantics[role=button]").find((b) => right.test(b.textContent.trim()));
  const began = performance.now();
  const look = () => {
    if (!there()) return false;
    watch.disconnect();
    done(performance.now() - began);
    return true;
  };
  const watch = new MutationObserver(look);
  setTimeout(() => failed(new Error(`step ${place} did not come`)), most_ms);
  watch.observe(document.body, { childList: true, subtree: true, characterData: true });
  button.click();
})"""


class Mechanic:
    """A browser that walks one lamp walk after another."""

    def __init__(self, phone: Phone, address: str, walks: Iterator[str], steps: int) -> None:
        self._phone = phone
        self._address = address
        self._walks = walks
        self._steps = steps
        self._walk = ""
        self._place = steps
        self.answered: Counter[str] = Counter()

    def tap(self) -> float:
        """Answer one step; seconds until the next one is in the page."""
        if self._place == self._steps:
            self._begin()
        self._place += 1
        waited_s: float = self._phone.page.evaluate(_TAP, [self._place, PATIENCE_MS]) / 1000
        self.answered[self._walk] += 1
        return waited_s

    def _begin(self) -> None:
        """Open the next walk and answer its first step, unmeasured."""
        self._walk = next(self._walks)
        self._phone.open(self._address, f"walk/{self._walk}")
        self._phone.at(1)
        self._phone.answer()
        self.answered[self._walk] += 1
        self._place = 2
        self._phone.at(self._place)
        self._phone.page.wait_for_timeout(1000)


def _walk_through(mechanics: Sequence[Mechanic]) -> list[float]:
    """Each taps in turn, every two seconds; seconds of each tap to its next step."""
    waits_s = []
    for _ in range(TAPS):
        began_s = time.monotonic()
        for mechanic in mechanics:
            waits_s.append(mechanic.tap())
            left_s = EVERY_S / len(mechanics) - (time.monotonic() - began_s) % EVERY_S
            time.sleep(max(0.0, left_s))
    return waits_s


def _stored(data: Path, walk_id: str) -> int:
    steps = [e.step for e in WalkReader(data).load(walk_id).events if isinstance(e, Answered)]
    assert len(steps) == len(set(steps)), f"{walk_id} has a step answered twice"
    return len(steps)


def _told(name: str, waits_s: Sequence[float]) -> str:
    p95_s = quantiles(waits_s, n=20)[-1]
    return f"{name}: p50 {1000 * median(waits_s):.0f} ms, p95 {1000 * p95_s:.0f} ms"


def test_fifty_phones_at_once_lose_nothing_and_wait_little(tmp_path: Path) -> None:
    data = tmp_path / "data"
    parts = build(data, voice=SilentVoice())
    walks = lamp_walks(parts, SESSIONS, TAPS)
    truck = next(v for v in parts.library.vehicles if v.id == VEHICLE)
    plan = plan_walk(truck, parts.library.rules, scope="lamps", together=False)
    own = [parts.open_walks.begin(plan, "Ana") for _ in range(2 * 2 * (TAPS // 20 + 1))]
    parts.close()
    command = Command(data)
    command.start()
    try:
        with launched() as chromium, in_hand(chromium) as one, in_hand(chromium) as two:
            left = iter(own)
            steps = len(plan.steps)
            mechanics = [Mechanic(phone, command.address, left, steps) for phone in (one, two)]
            alone_s = _walk_through(mechanics)
            load = Load(command.address, walks, TAPS, EVERY_S)
            load.begin()
            among_s = _walk_through(mechanics)
            load.end()
    finally:
        command.stop()
    told = sum((mechanic.answered for mechanic in mechanics), load.acknowledged)
    stored = {walk_id: _stored(data, walk_id) for walk_id in told}
    ratio = quantiles(among_s, n=20)[-1] / quantiles(alone_s, n=20)[-1]
    print(
        f"\n{SESSIONS} phones and 2 browsers: {told.total()} answers acknowledged, "
        f"{sum(stored.values())} stored"
        f"\n{_told('browsers alone', alone_s)}"
        f"\n{_told('browsers among them', among_s)}"
        f"\n{_told('phones', load.waits_s)}"
        f"\nratio of the browsers' p95: {ratio:.2f}"
    )
    assert load.acknowledged.total() == SESSIONS * TAPS
    assert stored == dict(told)
    assert ratio <= MOST_RATIO
