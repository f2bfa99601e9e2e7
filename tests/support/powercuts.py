"""Cuts the power in a scripted walk, and looks whether all that was told to be saved is there."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import islice
from pathlib import Path

import pytest
from support.forgetfuldisk import Cut, Deafness, ForgetfulDisk, Tree, lay_out
from support.scripted import SCRIPT, done
from support.walks import BEGAN, FakeClock, plan

from walkaround.base.errors import WalkaroundError
from walkaround.records.open_walks import OpenWalks
from walkaround.records.store import WalkStore


@dataclass
class Toll:
    """What was counted; the last two must stay 0.

    Attributes:
        moments: at which the power was cut.
        states: in which the disk may then be found, each looked at.
        lost: states that lack something told to be saved.
        damaged: states about which there is a word, though nothing is lost.
    """

    moments: int = 0
    states: int = 0
    lost: int = 0
    damaged: int = 0

    def __str__(self) -> str:
        return (
            f"{self.moments} power cuts, {self.states} states of the disk: "
            f"{self.lost} with an acknowledged answer lost, {self.damaged} damaged"
        )


def script(disk: ForgetfulDisk, root: Path, groups: int) -> None:
    """Two walks in two months, so many groups of the script each, and settings."""
    for number in range(2):
        store = WalkStore(root)
        open_walks = OpenWalks(store, FakeClock(began=BEGAN + timedelta(days=20 * number)))
        store.change_settings({"number": number})
        disk.tell(("settings", number))
        walk_id = open_walks.begin(plan(), "Ana")
        disk.tell((walk_id, 1))
        for group in SCRIPT[:groups]:
            walk = open_walks.do(walk_id, "Ana", *group)
            disk.tell((walk_id, len(walk.events)))
        store.overview()
        store.close()


def cuts(
    root: Path,
    monkeypatch: pytest.MonkeyPatch,
    groups: int,
    *,
    deaf_to: Deafness = "",
    before: Callable[[Path], None] = lambda _: None,
) -> Sequence[Cut]:
    """Every moment of the script at which the power may go.

    Args:
        root: the data folder, not yet there.
        monkeypatch: of the test.
        groups: how much of the script.
        deaf_to: what the disk only says to have kept.
        before: is done to the data folder first.
    """
    root.mkdir()
    disk = ForgetfulDisk(root, deaf_to)
    with disk.followed(monkeypatch):
        before(root)
        script(disk, root, groups)
    return disk.cuts


def cut_at_each(moments: Sequence[Cut], folder: Path, most: int | None = None) -> Toll:
    """Look at each state that each cut may leave, or at the first so many of each cut."""
    toll = Toll(moments=len(moments))
    seen: set[object] = set()
    for moment in moments:
        for tree in islice(moment.trees(), most):
            state = (frozenset(tree.items()), moment.told)
            if state not in seen:
                seen.add(state)
                _look(tree, moment, folder / str(len(seen)), toll)
    return toll


def _look(tree: Tree, moment: Cut, folder: Path, toll: Toll) -> None:
    toll.states += 1
    lay_out(tree, folder)
    store = WalkStore(folder)
    try:
        toll.lost += not _all_there(store, moment)
        toll.damaged += any(line.trouble for line in store.overview().lines)
    except WalkaroundError:
        toll.lost += 1
    finally:
        store.close()
    shutil.rmtree(folder)


def _all_there(store: WalkStore, moment: Cut) -> bool:
    told = dict(moment.told)
    number = told.pop("settings", -1)
    listed = {line.id for line in store.overview().lines}
    for walk_id, count in told.items():
        loaded = store.load(walk_id)
        if len(loaded.events) < count or walk_id not in listed:
            return False
        done(loaded.events)
    return bool(store.load_settings().get("number", -1) >= number)


def no_sync(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is only looked at need not be forced to the disk."""
    monkeypatch.setattr(os, "fsync", lambda _: None)
