"""Screenshots of every screen and state, at every size, in both colors, at two sizes of text.

From the folder `tests`: `python -m browser.screenshots FOLDER [NAME...]`; with names, of `SCREENS`,
`RARER` and `PAGES`, vehicles' ids, steps' ids and VEHICLE-STEP, only those. To be looked at one by
one.
"""

from __future__ import annotations

import sys
from collections.abc import Collection, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, Page
from support.voices import SilentVoice
from support.walks import FakeClock

from browser.allsizes import SIGHTS, Watched, watching, wear, worn
from browser.chromium import launched
from browser.phone import in_hand
from browser.seeds import PUMP_TRAILER, SEMITRAILER, TRACTOR, WHO, answer, plan_for
from browser.seldom_screens import PAGES, page_path
from browser.serving import Served, served
from browser.test_looks import RARER, SCREENS
from walkaround.plan.steps import Plan
from walkaround.timing import Timing

VEHICLES = (SEMITRAILER, PUMP_TRAILER, TRACTOR)
REST_MS = 300.0
"""On a machine with other work what the server says of a change comes late."""
LOOK_MS, STILL_LOOKS, MOST_LOOKS = 70.0, 6, 60
"""A page that wants to draw nothing in so many looks on end is drawn; some draw on for ever."""


def shoot(folder: Path, only: Collection[str] = ()) -> int:
    """Write the screenshots into a folder; how many they are."""
    folder.mkdir(parents=True, exist_ok=True)
    with (
        watching() as opened,
        TemporaryDirectory() as data,
        served(Path(data), FakeClock(), SilentVoice(), timing=Timing(dead_s=0.0)) as app,
        launched() as browser,
    ):
        plans = {vehicle_id: plan_for(app.parts, vehicle_id) for vehicle_id in VEHICLES}
        _refuse_unknown(only, plans)
        for name, show in {**SCREENS, **RARER}.items():
            if not only or name in only:
                with in_hand(browser, dead_s=0.0, sharp=True) as phone:
                    show(app, phone)
                    _all_sights(Watched(phone, opened[-1]), folder, name.replace(" ", "_"))
        for name in PAGES:
            if not only or name in only:
                _page(app, browser, folder, name)
        for vehicle_id, plan in plans.items():
            asked = [
                step
                for step in plan.steps
                if not only or {step.id, vehicle_id, f"{vehicle_id}-{step.id}"} & {*only}
            ]
            if asked:
                walk_id = app.parts.open_walks.begin(plan, WHO)
                with in_hand(browser, dead_s=0.0, sharp=True) as phone:
                    phone.open(app.address, f"walk/{walk_id}")
                    for step in plan.steps:
                        if step in asked:
                            _all_sights(
                                Watched(phone, opened[-1]), folder, f"{vehicle_id}-{step.id}"
                            )
                        answer(app.parts, walk_id, step)
    return len(list(folder.glob("*.png")))


def _refuse_unknown(only: Collection[str], plans: Mapping[str, Plan]) -> None:
    """Say which names are of nothing that can be drawn."""
    known = {*SCREENS, *RARER, *PAGES, *plans}
    for vehicle_id, plan in plans.items():
        known |= {name for step in plan.steps for name in (step.id, f"{vehicle_id}-{step.id}")}
    if unknown := sorted({*only} - known):
        raise SystemExit(
            f"No screen, vehicle or step is called {', '.join(unknown)}. Screens: "
            f"{', '.join([*SCREENS, *RARER, *PAGES])}. Vehicles: {', '.join(plans)}. A step of one "
            "vehicle alone: VEHICLE-STEP, as the names of screenshots begin."
        )


def _page(app: Served, browser: Browser, folder: Path, name: str) -> None:
    """A page of plain HTML, in one color, all of it."""
    path = page_path(app.parts, name)
    for width, height in dict.fromkeys(sight[:2] for sight in SIGHTS):
        page = browser.new_page(viewport={"width": width, "height": height})
        # The browser would keep some as files instead of showing them.
        page.set_content(page.request.get(app.address + path).text())
        page.screenshot(
            path=folder / f"{name.replace(' ', '_')}-{width}x{height}.png", full_page=True
        )
        page.close()


def _all_sights(watched: Watched, folder: Path, name: str) -> None:
    page = watched.phone.page
    for sight in SIGHTS:
        wear(page, sight)
        worn({sight: watched})
        watched.phone.at_rest(REST_MS)
        size = f"{sight.width}x{sight.height}-{sight.scheme}-{sight.percent}"
        (folder / f"{name}-{size}.png").write_bytes(_still(page))


def _still(page: Page) -> bytes:
    """The page once it draws no more: colors and texts change little by little."""
    still = 0
    for _ in range(MOST_LOOKS):
        still = 0 if page.evaluate("window.toDraw") else still + 1
        if still == STILL_LOOKS:
            break
        page.wait_for_timeout(LOOK_MS)
    return page.screenshot()


if __name__ == "__main__":
    print(f"{shoot(Path(sys.argv[1]), sys.argv[2:])} screenshots in {sys.argv[1]}")
