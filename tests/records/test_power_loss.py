"""Power goes at any moment, and the disk forgets all that was not forced to it: nothing told to
be saved is lost.

The walks here are the beginning of those of `soak/test_soak_power_loss.py`.
"""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest
from support.forgetfuldisk import Deafness
from support.powercuts import cut_at_each, cuts, no_sync

GROUPS = 2
FIRST = 4


def test_a_power_cut_takes_nothing_that_was_told_to_be_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    moments = cuts(tmp_path / "data", monkeypatch, GROUPS)
    no_sync(monkeypatch)
    toll = cut_at_each(moments, tmp_path)
    print(toll)
    assert toll.moments > 80
    assert toll.states > 110
    assert (toll.lost, toll.damaged) == (0, 0), toll


def test_a_folder_made_by_a_process_that_was_killed_at_once_is_forced_to_the_disk_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def made_and_killed(root: Path) -> None:
        (root / "walks" / "2026-11").mkdir(parents=True)

    moments = cuts(tmp_path / "data", monkeypatch, 1, before=made_and_killed)
    no_sync(monkeypatch)
    assert cut_at_each(moments[:40], tmp_path).lost == 0


def test_where_a_file_cannot_have_two_names_nothing_is_lost_either(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_link(*_: object) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    monkeypatch.setattr(os, "link", no_link)
    moments = cuts(tmp_path / "data", monkeypatch, 1)
    no_sync(monkeypatch)
    assert cut_at_each(moments[:40], tmp_path).lost == 0


@pytest.mark.parametrize("deaf_to", ["files", "folders"])
def test_a_disk_that_only_says_to_have_kept_something_loses_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, deaf_to: Deafness
) -> None:
    """Else the cuts of the test above would show nothing."""
    moments = cuts(tmp_path / "data", monkeypatch, 1, deaf_to=deaf_to)
    no_sync(monkeypatch)
    assert cut_at_each(moments[-3:], tmp_path, FIRST).lost > 0
