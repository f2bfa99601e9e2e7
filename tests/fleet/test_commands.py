"""`publish` and `pull` as they are typed."""

from __future__ import annotations

import json
import sys

import pytest
from support.shops import PLAN, Shop, walk_of

from walkaround.cli import main

Capsys = pytest.CaptureFixture[str]


def test_walks_go_from_one_depot_to_another_and_no_password_is_kept(
    north: Shop, south: Shop, database: str, capsys: Capsys
) -> None:
    north.keep(1, "ab")
    secret = database.replace("depots@", "depots:hush77@")
    assert main(["publish", secret, "--data", str(north.data), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert (document["walks"], document["same"], document["left_out"]) == (1, 0, {})
    assert main(["publish", secret, "--data", str(north.data)]) == 0
    assert capsys.readouterr().out == "0 walks published with 0 facts; 1 there already.\n"
    kept = [path for path in north.data.rglob("*") if path.is_file()]
    assert not [path for path in kept if b"hush77" in path.read_bytes()]
    pull = ["pull", PLAN.vehicle.id, "--data", str(south.data), "--json"]
    assert main([*pull, "--from", database]) == 0
    assert json.loads(capsys.readouterr().out)["added"] == [walk_of(1)]
    assert main(["pull", PLAN.vehicle.id, "--data", str(north.data), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["same"] == [walk_of(1)]


def test_without_an_address_and_without_the_driver_there_is_one_sentence(
    north: Shop, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert main(["pull", "trailer", "--data", str(north.data)]) == 2
    assert "no address is kept here" in capsys.readouterr().err
    monkeypatch.setitem(sys.modules, "psycopg", None)
    assert main(["publish", "postgresql://db/fleet", "--data", str(north.data)]) == 2
    assert "walkaround[fleet]" in capsys.readouterr().err
