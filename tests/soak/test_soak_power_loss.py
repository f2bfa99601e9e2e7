"""Power goes at every moment of two walks; every state in which the disk may be found."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.powercuts import cut_at_each, cuts, no_sync
from support.scripted import SCRIPT

pytestmark = pytest.mark.soak


def test_no_power_cut_takes_what_was_told_to_be_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    moments = cuts(tmp_path / "data", monkeypatch, len(SCRIPT))
    no_sync(monkeypatch)
    toll = cut_at_each(moments, tmp_path)
    print(f"\n{toll}")
    assert (toll.lost, toll.damaged) == (0, 0)
