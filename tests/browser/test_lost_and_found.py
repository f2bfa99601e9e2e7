"""A killed server, a page loaded again, a computer started anew: nothing answered is lost."""

from __future__ import annotations

import json
import re
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import expect
from support.voices import SilentVoice
from support.walks import FakeClock

from browser.holding import read
from browser.phone import PATIENCE_MS, Phone
from browser.seeds import PUMP_TRAILER, SEMITRAILER, place_of, plan_for, walked
from browser.serving import Command, Served, served
from walkaround.bootstrap import build
from walkaround.disk.locations import half_typed
from walkaround.records.reader import WalkReader
from walkaround.voice.clips import Voice
from walkaround.walk.events import Answered, Event, HoldBegan

pytestmark = pytest.mark.browser

HOLD = "supply_hold"


def _events(data: Path, walk_id: str) -> tuple[Event, ...]:
    return WalkReader(data).load(walk_id).events


def _answers(data: Path, walk_id: str) -> Counter[str]:
    events = _events(data, walk_id)
    return Counter(event.step for event in events if isinstance(event, Answered))


def _seeded(data: Path, upto: str) -> tuple[str, int]:
    """A walk that waits at this step, on the computer's own clock: its id, the step's number."""
    parts = build(data, voice=SilentVoice())
    place = place_of(plan_for(parts, SEMITRAILER), upto)
    walk_id = walked(parts, SEMITRAILER, upto)
    parts.close()
    return walk_id, place


def _comes_back(command: Command, phone: Phone) -> None:
    """Start the server and wait until the page has found it by itself and is drawn again."""
    with phone.new_screen():
        command.start()
    phone.settled()


def test_a_killed_server_comes_back_to_the_same_step_and_is_heard(
    command: Command, phone: Phone, data: Path
) -> None:
    """Taps on a page without its server are sent once it is back, to controls of before.

    The page's player once stayed with the server that was gone, so it is killed twice.
    """
    walk_id, first = _seeded(data, "tail_rear")
    command.start()
    phone.open(command.address, f"walk/{walk_id}")
    lost = phone.page.get_by_role("alertdialog")
    for place in (first, first + 1):
        phone.at(place)
        phone.stays("OK")
        answered = _answers(data, walk_id)
        assert len(answered) == place - 1
        command.kill()
        expect(lost).to_contain_text(
            re.compile(r"No connection. Answers are saved.\s+Touch no valve.")
        )
        # The last screen stays under it, and takes no touch.
        phone.at(place)
        for _ in range(2):
            phone.page.touchscreen.tap(*phone.box("OK").middle)
        assert _answers(data, walk_id) == answered
        with _speaks(phone):
            _comes_back(command, phone)
        expect(lost).to_be_hidden()
        phone.at(place)
        assert _answers(data, walk_id) == answered
        with _speaks(phone):
            phone.answer("OK")
    phone.at(first + 2)
    answered = _answers(data, walk_id)
    assert set(answered.values()) == {1}
    assert len(answered) == first + 1


def test_a_server_killed_in_mid_note_says_so_in_the_language_of_the_phone_and_loses_no_key(
    command: Command, phone: Phone, data: Path
) -> None:
    walk_id, _ = _seeded(data, "tail_rear")
    spanish = json.dumps(json.dumps({"language": "es"}))
    key = "flutter.walkaround.settings"
    phone.page.add_init_script(f"localStorage.setItem('{key}', {json.dumps(spanish)})")
    command.start()
    phone.open(command.address, f"walk/{walk_id}")
    phone.tap("Nota")
    phone.types("Nota", "Mica ra")
    file = half_typed(data)
    deadline_s = time.monotonic() + PATIENCE_MS / 1000
    while not (file.exists() and "Mica ra" in file.read_text(encoding="utf-8")):
        assert time.monotonic() < deadline_s, "What was typed is not in the file."
        phone.page.wait_for_timeout(50)
    command.kill()
    lost = phone.page.get_by_role("alertdialog")
    expect(lost).to_contain_text(re.compile(r"Sin conexión\..*No toque ninguna válvula\."))
    expect(lost).to_contain_text(re.compile(r"desde hace [1-9]\d* s"))
    with phone.new_screen():
        command.start()
    expect(lost).to_be_hidden()
    field = phone.page.get_by_role("textbox")
    expect(field).to_have_value("Mica ra", timeout=PATIENCE_MS)


@contextmanager
def _speaks(phone: Phone) -> Iterator[None]:
    """What is done inside is followed by a prompt."""
    phone.page.evaluate("window.heard.length = 0")
    yield
    _hears(phone)


def _hears(phone: Phone) -> None:
    phone.page.wait_for_function(
        "() => window.heard.some(h => h.what === 'playing' && h.src.includes('/speech/'))"
    )


def test_an_air_hold_goes_on_with_true_time_after_its_server_was_killed(
    command: Command, phone: Phone, data: Path
) -> None:
    walk_id, _ = _seeded(data, HOLD)
    command.start()
    phone.open(command.address, f"walk/{walk_id}")
    phone.answer("Start the minute")
    read(phone, 110)
    command.kill()
    frozen = phone.seconds_left()
    command.start()
    phone.counts_on(frozen)
    began = next(event for event in _events(data, walk_id) if isinstance(event, HoldBegan))
    # The countdown is drawn five times a second; a page may show the second before or, for a moment
    # on a busy machine, one that is long over.
    for _ in range(10):
        most = 30 - (time.monotonic() - began.at.mono_s)
        shown = phone.seconds_left()
        least = 30 - (time.monotonic() - began.at.mono_s)
        if least - 1 <= shown <= most + 2:
            break
        phone.counts_on(shown)
    assert least - 1 <= shown <= most + 2
    phone.counts_on(shown)
    assert phone.seconds_left() < shown


def test_a_page_loaded_again_in_mid_walk_shows_the_same_step(app: Served, phone: Phone) -> None:
    plan, walk_id = plan_for(app.parts, PUMP_TRAILER), walked(app.parts, PUMP_TRAILER, "tail_rear")
    phone.open(app.address, f"walk/{walk_id}")
    phone.answer("OK")
    place = place_of(plan, "tail_rear") + 1
    phone.at(place)
    phone.reload()
    phone.at(place)
    phone.answer("OK")
    phone.at(place + 1)


def test_a_page_loaded_again_in_mid_hold_shows_the_true_remaining_time(
    app: Served, phone: Phone, clock: FakeClock
) -> None:
    walk_id = walked(app.parts, SEMITRAILER, HOLD)
    phone.open(app.address, f"walk/{walk_id}")
    phone.answer("Start the minute")
    read(phone, 110)
    clock.wait(17)
    phone.counts_on(30)
    assert phone.seconds_left() == 13
    clock.wait(5)
    phone.reload()
    phone.stays("Stop")
    assert phone.seconds_left() == 8
    clock.wait(8)
    read(phone, 110)
    clock.wait(30)
    read(phone, 110)
    phone.stays("OK")
    readings = [(r.at_s, r.psi) for r in app.parts.open_walks.walk(walk_id).holds[HOLD].readings]
    assert readings == [(0, 110), (30, 110), (60, 110)]


@pytest.mark.parametrize(
    ("change", "why"),
    [({"boot": "boot_b"}, "restarted"), ({"asleep_s": 30.0}, "slept")],
    ids=["reboot", "sleep"],
)
def test_a_hold_whose_time_is_lost_is_void_and_says_so(
    app: Served, phone: Phone, clock: FakeClock, change: dict[str, object], why: str
) -> None:
    walk_id = walked(app.parts, SEMITRAILER, HOLD)
    phone.open(app.address, f"walk/{walk_id}")
    phone.answer("Start the minute")
    read(phone, 110)
    for name, value in change.items():
        setattr(clock, name, value)
    phone.stays("Hold again")
    phone.sees(f"The computer {why}")
    hold = app.parts.open_walks.walk(walk_id).holds[HOLD]
    assert why in str(hold.void)
    phone.answer("Hold again")
    for _ in range(3):
        read(phone, 110)
        clock.wait(30)
    phone.answer("OK")
    phone.stays("Both OK")


def test_a_computer_that_restarted_in_mid_hold_voids_it(
    phone: Phone, data: Path, voice: Voice
) -> None:
    """The clock starts over with each boot: the hold seems to begin later than it is now."""
    with served(data, FakeClock(mono_s=5000.0), voice) as app:
        walk_id = walked(app.parts, SEMITRAILER, HOLD)
        phone.open(app.address, f"walk/{walk_id}")
        phone.answer("Start the minute")
        read(phone, 110)
        phone.page.goto("about:blank")
    with served(data, FakeClock(mono_s=40.0, boot="boot_b"), voice) as app:
        phone.open(app.address, f"walk/{walk_id}")
        phone.stays("Hold again")
        phone.sees("The computer restarted during the air hold")
        phone.page.goto("about:blank")
