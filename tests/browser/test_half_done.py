"""What was half typed when a phone fell asleep, changed networks or was pulled down to reload."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

import pytest

from browser.cutting import OTHER_ADDRESS, Link
from browser.onewalk import OneWalk
from browser.phone import PATIENCE_MS, Phone
from browser.seeds import SEMITRAILER
from browser.serving import Served
from walkaround.ui.page.unfinished import Unfinished

pytestmark = pytest.mark.browser


@pytest.fixture
def kept(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """What the server has heard so far of what is half done."""
    heard: list[object] = []
    keep = Unfinished.keep

    def remembered(self: Unfinished, name: str, value: object) -> object:
        heard.append(value)
        return keep(self, name, value)

    monkeypatch.setattr(Unfinished, "keep", remembered)
    return heard


def _heard(phone: Phone, kept: list[object], text: str) -> None:
    """Wait until every key of this has reached the server."""
    deadline_s = time.monotonic() + PATIENCE_MS / 1000
    while not any(text in repr(each) for each in kept):
        assert time.monotonic() < deadline_s, f"The server did not hear {text!r}."
        phone.page.wait_for_timeout(50)


def _asleep(phone: Phone, link: Link) -> None:
    link.cut()
    phone.page.wait_for_timeout(1200)
    with phone.new_screen():
        link.mend()


def _other_network(phone: Phone, link: Link) -> None:
    link.source = OTHER_ADDRESS
    with phone.new_screen():
        link.strand()


def _reloads(phone: Phone, _: Link) -> None:
    phone.reload()


LOST: Sequence[tuple[Callable[[Phone, Link], None], str]] = (
    (_asleep, "Lens cra"),
    (_other_network, "Bulb du"),
    (_reloads, "Socket gr"),
)
"""How a page may be lost, and what was half typed then."""


def test_a_note_half_typed_is_there_when_the_page_is_back(
    walk: OneWalk, link: Link, phone: Phone, kept: list[object]
) -> None:
    phone.open(link.address, walk.path)
    phone.at(walk.place)
    for done, (lose, typed) in enumerate(LOST):
        phone.tap("Note")
        phone.types("Note", typed)
        _heard(phone, kept, typed)
        lose(phone, link)
        phone.stays("Save the note")
        # A field that is not being typed in tells screen readers its words elsewhere.
        phone.page.get_by_label("Note").first.click()
        phone.reads("Note", typed)
        phone.answer("Save the note")
        phone.at(walk.place + done)
        phone.sees(f"Note: {typed}")
        phone.answer("OK")
        phone.at(walk.place + done + 1)
        assert walk.answered() == walk.next_steps(done + 1)


def test_a_vehicle_half_filled_in_is_there_when_the_page_is_back(
    app: Served, link: Link, phone: Phone, kept: list[object]
) -> None:
    phone.open(link.address, f"vehicle/new/{SEMITRAILER}")
    phone.types("Name", " spare", after="Sandbag semitrailer 8")
    _heard(phone, kept, "Sandbag semitrailer 8 spare")
    _asleep(phone, link)
    phone.page.get_by_label("Name").first.click()
    phone.reads("Name", "Sandbag semitrailer 8 spare")
    phone.tap("Save")
    phone.stays("Start a walk")
    names = [each.name for each in app.parts.library.vehicles]
    assert "Sandbag semitrailer 8 spare" in names
