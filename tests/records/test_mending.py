"""Damaged files of walks: they open, keep every event that fits, say so, and nothing is lost.

Every byte is damaged in `soak/test_soak_every_byte.py`.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

import pytest
from support.mangling import BEFORE, BITS, NOW, SMALL, Damage, KeptListDamage, read_walks
from support.walks import WALK_ID, some_events

from walkaround.base.errors import MachineError
from walkaround.records.reader import LoadedWalk, WalkReader


@pytest.fixture
def damage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Damage]:
    # Thousands of damaged files need not be forced to the disk.
    monkeypatch.setattr(os, "fsync", lambda _: None)
    damage = Damage(tmp_path)
    yield damage
    damage.store.close()


def test_a_file_cut_off_opens_with_all_that_is_left(damage: Damage) -> None:
    for length in range(0, len(NOW), 41):
        damage.cut_off(length)
    damage.cut_off(len(NOW) - 1)


def test_a_bad_bit_costs_no_event_but_the_one_it_is_in_and_is_always_told(damage: Damage) -> None:
    for at in range(0, len(NOW), 37):
        damage.flip(at, BITS[at % len(BITS)])


def test_a_damaged_list_hides_no_walk_and_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "fsync", lambda _: None)
    damage = KeptListDamage(tmp_path)
    with read_walks(monkeypatch) as reads:
        for damaged in islice(damage.mangled(range(len(damage.good))), 0, None, 613):
            damage.check(damaged, reads)


def test_a_file_that_is_gone_is_made_again_from_the_one_before(damage: Damage) -> None:
    loaded = damage.load(None, BEFORE)
    assert loaded.events == SMALL[:-1]
    assert "damaged" in loaded.notice
    assert damage.store.load(WALK_ID) == loaded


def test_the_file_before_is_set_aside_too_if_it_is_damaged(damage: Damage) -> None:
    loaded = damage.load(NOW[:-20], BEFORE[:-20])
    assert loaded.events == SMALL[:-1]
    kept = {file.name.partition(".json")[2] for file in damage.path.parent.iterdir()}
    assert kept == {"", ".damaged-1", ".prev.damaged-1"}


@pytest.mark.parametrize("junk", [b"", b"\0" * 4096, b"[" * 100_000, b'{"seq":' * 2000, b"{}"])
def test_a_file_of_junk_is_left_as_it_is_and_nothing_is_written_over_it(
    damage: Damage, junk: bytes
) -> None:
    loaded = damage.load(junk, None)
    assert loaded.events == ()
    assert str(damage.path) in loaded.notice
    with pytest.raises(MachineError, match="Nothing of walk"):
        damage.store.append(WALK_ID, SMALL[1:2])
    with pytest.raises(MachineError, match="already"):
        damage.store.create(some_events()[0])
    assert damage.path.read_bytes() == junk
    (line,) = damage.store.overview().lines
    assert (line.id, line.trouble) == (WALK_ID, loaded.notice)


def test_a_walk_goes_on_after_its_file_was_mended(damage: Damage) -> None:
    loaded = damage.load(NOW[:-20], BEFORE)
    assert len(loaded.events) == len(SMALL) - 1
    damage.store.append(WALK_ID, SMALL[-1:])
    assert damage.store.load(WALK_ID) == LoadedWalk(SMALL, loaded.notice)


def test_damage_is_mended_by_an_append_too(damage: Damage) -> None:
    damage.load(NOW, BEFORE)
    damage.path.write_bytes(b"")
    damage.store.append(WALK_ID, SMALL[-1:])
    assert damage.store.load(WALK_ID).events == SMALL


def test_a_reader_mends_nothing(damage: Damage, tmp_path: Path) -> None:
    damage.load(NOW, BEFORE)
    damage.path.write_bytes(NOW[:-20])
    loaded = WalkReader(tmp_path).load(WALK_ID)
    assert loaded.events == SMALL[:-1]
    assert "damaged" in loaded.notice
    assert damage.path.read_bytes() == NOW[:-20]


def test_a_walk_of_a_later_version_is_refused_and_left_alone(damage: Damage) -> None:
    later = NOW.replace(b'"schema":1', b'"schema":2').replace(b"schema 1", b"schema 2")
    with pytest.raises(MachineError, match="update this one"):
        damage.load(later, None)
    assert damage.path.read_bytes() == later
    (line,) = damage.store.overview().lines
    assert "later version" in line.trouble
