"""The file of a walk and that of the list, cut off and with a bad bit at every byte."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from support.mangling import BITS, NOW, Damage, KeptListDamage, read_walks

pytestmark = pytest.mark.soak


@pytest.fixture(autouse=True)
def no_fsync(monkeypatch: pytest.MonkeyPatch) -> None:
    """Thousands of damaged files need not be forced to the disk."""
    monkeypatch.setattr(os, "fsync", lambda _: None)


def test_a_walk_damaged_at_any_byte_opens_keeps_all_that_fits_and_says_so(tmp_path: Path) -> None:
    damage = Damage(tmp_path)
    for at in range(len(NOW)):
        damage.cut_off(at)
        for bit in BITS:
            damage.flip(at, bit)
    damage.store.close()
    files = len(NOW) * 2 * (1 + len(BITS))
    print(f"\nA walk of {len(NOW)} bytes: {files} damaged files opened, each with a word, 0 lost")


def test_a_kept_list_damaged_at_any_byte_hides_no_walk_and_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    damage, count = KeptListDamage(tmp_path), 0
    with read_walks(monkeypatch) as reads:
        for damaged in damage.mangled(range(len(damage.good))):
            damage.check(damaged, reads)
            count += 1
    print(f"\nA kept list of {len(damage.good)} bytes: {count} damaged files, each list right")
