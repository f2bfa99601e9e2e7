"""Files handed over by a page: only what was asked for, and never more than is allowed."""

from __future__ import annotations

from pathlib import Path

from support.handing import putting

from walkaround.library.inbox import MOST_TICKETS, Inbox
from walkaround.library.own_vehicles import MAX_UPLOAD_BYTES


async def test_a_file_that_was_asked_for_is_taken_once() -> None:
    inbox = Inbox()
    ticket = inbox.new_ticket()
    assert await inbox.receive(ticket, putting(b"abc")) == 204
    assert inbox.take_file(ticket) == b"abc"
    assert inbox.take_file(ticket) is None


async def test_what_nobody_asked_for_is_refused() -> None:
    inbox = Inbox()
    ticket = inbox.new_ticket()
    assert await inbox.receive("made_up", putting(b"abc")) == 404
    assert await inbox.receive(ticket, putting(b"abc")) == 204
    assert await inbox.receive(ticket, putting(b"other")) == 404
    assert inbox.take_file(ticket) == b"abc"


async def test_a_file_longer_than_allowed_is_cut_off_while_it_comes() -> None:
    inbox = Inbox()
    ticket = inbox.new_ticket()
    body = putting(b"x" * (MAX_UPLOAD_BYTES * 20))
    assert await inbox.receive(ticket, body) == 413
    assert inbox.take_file(ticket) is None
    whole = inbox.new_ticket()
    assert await inbox.receive(whole, putting(b"x" * MAX_UPLOAD_BYTES)) == 204
    rest = [chunk async for chunk in body]
    assert sum(map(len, rest)) > MAX_UPLOAD_BYTES


async def test_files_that_nobody_takes_do_not_pile_up() -> None:
    inbox = Inbox()
    first = inbox.new_ticket()
    tickets = [inbox.new_ticket() for _ in range(MOST_TICKETS)]
    assert await inbox.receive(first, putting(b"abc")) == 404
    assert await inbox.receive(tickets[-1], putting(b"abc")) == 204


async def test_a_large_file_goes_to_the_disk_and_no_further_than_it_may(tmp_path: Path) -> None:
    inbox, place = Inbox(), tmp_path / "coming"
    ticket = inbox.new_ticket(1_000_000, place)
    assert await inbox.receive(ticket, putting(b"x" * 1_000_000)) == 204
    assert inbox.take_file(ticket) == b""
    assert place.stat().st_size == 1_000_000
    longer = inbox.new_ticket(1_000_000, place)
    assert await inbox.receive(longer, putting(b"x" * 1_000_001)) == 413
    assert inbox.take_file(longer) is None
    assert not place.exists()


async def test_a_disk_that_takes_no_file_is_told_from_one_that_was_not_asked_for(
    tmp_path: Path,
) -> None:
    inbox = Inbox()
    ticket = inbox.new_ticket(1000, tmp_path / "no_folder" / "coming")
    assert await inbox.receive(ticket, putting(b"abc")) == 507
    assert inbox.take_file(ticket) is None
