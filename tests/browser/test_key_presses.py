"""A pedal with two keys, and keys that press buttons too, in the real page."""

from __future__ import annotations

import pytest

from browser.onewalk import OneWalk
from browser.phone import TWICE_S, Phone
from browser.serving import Served
from walkaround.records.reader import WalkReader
from walkaround.walk.events import Answered

pytestmark = pytest.mark.browser


def _learns(phone: Phone, action: str, key: str, shown: str) -> None:
    phone.tap(f"{action}: no key")
    phone.stays(f"{action}: press its key now")
    phone.page.keyboard.press(key)
    phone.stays(f"{action}: {shown}")


def _presses(phone: Phone, key: str) -> None:
    """A foot that goes down again no sooner than a foot can."""
    phone.page.wait_for_timeout(1000 * TWICE_S + 50)
    phone.page.keyboard.press(key)


HEADSET = """
window.headset = {};
const listen = MediaSession.prototype.setActionHandler;
MediaSession.prototype.setActionHandler = function (wish, press) {
  window.headset[wish] = press;
  listen.call(this, wish, press);
};
"""
"""Keeps what the page has the browser call when a button of a headset is pressed."""


def _headset(phone: Phone, *wishes: str) -> None:
    """Buttons of a headset, pressed at once: a browser tells of each as a wish to its player."""
    phone.page.wait_for_timeout(1000 * TWICE_S + 50)
    phone.page.evaluate("wishes => wishes.forEach((wish) => headset[wish]())", [*wishes])


def _bounces(phone: Phone, key: str, *, linked: bool = True) -> None:
    """Down, up, down and up within the page, since a driver under load may take long between.

    Unless `linked`, the sheet that tells of a lost connection is over the page meanwhile.
    """
    phone.page.wait_for_timeout(1000 * TWICE_S + 50)
    phone.page.evaluate(
        """([key, linked]) => {
          const sheet = document.getElementById('no-link');
          sheet.hidden = linked;
          for (const kind of ['keydown', 'keyup', 'keydown', 'keyup']) {
            const told = { key, code: key, bubbles: true, cancelable: true };
            (document.activeElement ?? document.body).dispatchEvent(new KeyboardEvent(kind, told));
          }
          sheet.hidden = true;
        }""",
        [key, linked],
    )


def test_a_pedal_answers_step_after_step_once_a_press(
    app: Served, phone: Phone, walk: OneWalk
) -> None:
    """The app has no dead time here: that a bounce answers nothing is the page's own doing."""
    phone.page.add_init_script(HEADSET)
    phone.open(app.address, walk.path)
    phone.at(walk.place)
    phone.tap("More")
    phone.tap("Keys and pedals")
    for action, key, shown in (
        ("OK", "PageDown", "Page Down"),
        ("Defect", "Enter", "Enter"),
        ("Back", "3", "3"),
    ):
        _learns(phone, action, key, shown)
    phone.tap("OK: Page Down")
    phone.stays("OK: press its key now")
    _headset(phone, "pause")
    phone.stays("OK: Page Down, Media Play Pause")
    # Kept by the phone: a page that comes anew knows them.
    phone.reload()
    phone.tap("Back")
    phone.stays("Keys and pedals")
    phone.tap("Back")
    phone.sees("Page Down OK, Enter Defect, 3 Back")

    keyboard = phone.page.keyboard
    _presses(phone, "PageDown")
    phone.at(walk.place + 1)
    assert walk.answered() == walk.next_steps(1)

    # A bounce, and a pedal that is held down.
    _bounces(phone, "PageDown")
    phone.at(walk.place + 2)
    phone.page.wait_for_timeout(1000 * TWICE_S + 50)
    for _ in range(4):
        keyboard.down("PageDown")
    keyboard.up("PageDown")
    phone.at(walk.place + 3)
    phone.at_rest()
    assert walk.answered() == walk.next_steps(3)

    # Without a connection, of which a sheet over the page tells, none is taken. The page takes the
    # sheet away as soon as it hears that it is connected.
    _bounces(phone, "PageDown", linked=False)
    phone.at_rest()
    assert walk.answered() == walk.next_steps(3)

    # Enter was learnt: it does not press the button that has the focus.
    phone.button("OK").focus()
    _presses(phone, "Enter")
    phone.headed("Which one is wrong?")
    phone.tap("Back")
    phone.at(walk.place + 3)
    assert walk.answered() == walk.next_steps(3)

    # In a field keys are typed.
    phone.tap("Note")
    phone.types("Note", "3 of 30")
    phone.tap("Save the note")
    phone.gone("Save the note")
    phone.at(walk.place + 3)
    assert walk.answered() == walk.next_steps(3)

    # The last answer is taken back no more: a note was written since. So it is looked back at.
    _presses(phone, "3")
    phone.stays("Return")
    _presses(phone, "PageDown")
    phone.at(walk.place + 3)
    # The same button once more, told of in another way, is a bounce.
    _headset(phone, "play", "pause")
    phone.at(walk.place + 4)
    _presses(phone, "3")
    phone.at(walk.place + 3)
    events = WalkReader(walk.data).load(walk.id).events
    given = [event for event in events if isinstance(event, Answered)]
    assert [event.by for event in given[len(walk.before) :]] == ["key"] * 4
    assert events[-1].kind == "revisited"
