"""Many phones at once, each in its own walk: who taps when, and what was acknowledged to whom."""

from __future__ import annotations

import asyncio
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import AsyncExitStack
from dataclasses import dataclass, field
from itertools import cycle
from threading import Event, Thread

from support.fletclient import FletClient

from walkaround.bootstrap import Parts
from walkaround.plan.plan_walk import plan_walk
from walkaround.timing import Timing

WHO = "Kim"


@dataclass
class Load:
    """So many phones, each tapping once every so many seconds, a little after one another.

    Attributes:
        address: where the app is.
        walks: for each phone the walks that it walks, one after the other.
        taps: of each phone.
        every_s: from one tap of a phone to its next.
        acknowledged: walk -> answers after which its phone was shown what comes next.
        waits_s: from each tap until then.
    """

    address: str
    walks: Sequence[Sequence[str]]
    taps: int
    every_s: float
    acknowledged: Counter[str] = field(default_factory=Counter)
    waits_s: list[float] = field(default_factory=list)
    _failed: list[BaseException] = field(default_factory=list)
    _open: Event = field(default_factory=Event)

    def __post_init__(self) -> None:
        self._thread = Thread(target=self._run, name="load")

    def begin(self) -> None:
        """Open every phone's page, then begin to tap, in a thread; `end` waits for it."""
        self._thread.start()
        while self._thread.is_alive() and not self._open.wait(timeout=1):
            pass

    def end(self) -> None:
        """Wait for the last tap; raise what went wrong."""
        self._thread.join()
        for error in self._failed:
            raise error

    def _run(self) -> None:
        try:
            asyncio.run(self.walk_all())
        except BaseException as error:
            self._failed.append(error)

    async def walk_all(self) -> None:
        """Every phone's taps. The first walk has a second phone, in the cab, that follows."""
        first = self.walks[0][0]
        async with AsyncExitStack() as pages:
            cab = await pages.enter_async_context(FletClient.opened(self.address, f"/cab/{first}"))
            phones = []
            for walks in self.walks:
                page = FletClient.opened(self.address, f"/walk/{walks[0]}")
                phones.append(await pages.enter_async_context(page))
                await phones[-1].shows("ok")
            self._open.set()
            async with asyncio.TaskGroup() as tapping:
                for at, (phone, walks) in enumerate(zip(phones, self.walks, strict=True)):
                    after_s = at * self.every_s / len(phones)
                    tapping.create_task(self._tap_along(phone, walks, after_s))
            await cab.until(lambda: cab.answered >= self.acknowledged[first])

    async def _tap_along(self, phone: FletClient, walks: Sequence[str], after_s: float) -> None:
        clock = asyncio.get_running_loop().time
        begin_s, left = clock() + after_s, iter(walks)
        walk = next(left)
        for tap in range(1, self.taps + 1):
            await asyncio.sleep(max(Timing().dead_s + 0.1, begin_s + tap * self.every_s - clock()))
            if "ok" not in phone.buttons:
                walk = next(left)
                await phone.go(f"/walk/{walk}")
                await phone.shows("ok")
                await asyncio.sleep(Timing().dead_s + 0.1)
            tapped_s = clock()
            await phone.tap("ok")
            await phone.shows("ok", "finish")
            self.waits_s.append(clock() - tapped_s)
            self.acknowledged[walk] += 1


def lamp_walks(parts: Parts, phones: int, taps: int) -> list[list[str]]:
    """For each phone walks that have at least so many steps together, of vehicles in turn."""
    vehicles = cycle(parts.library.vehicles)
    return [list(_of(parts, next(vehicles).id, taps)) for _ in range(phones)]


def _of(parts: Parts, vehicle_id: str, taps: int) -> Iterator[str]:
    known = {each.id: each for each in parts.library.vehicles}
    plan = plan_walk(known[vehicle_id], parts.library.rules, scope="lamps", together=False)
    for _ in range(-(-taps // len(plan.steps))):
        yield parts.open_walks.begin(plan, WHO)
