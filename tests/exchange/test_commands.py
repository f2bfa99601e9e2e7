"""`share`, `merge` and `verify` on the command line: what they print, and how they end."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from support.shops import Shop, walk_of
from support.walks import flipped

from walkaround.cli import main

Capsys = pytest.CaptureFixture[str]


def ran(capsys: Capsys, *arguments: object) -> tuple[int, str, str]:
    status = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return status, out, err


def document(capsys: Capsys, *arguments: object) -> dict[str, Any]:
    status, out, err = ran(capsys, *arguments, "--json")
    assert (status, err) == (0, "")
    read: dict[str, Any] = json.loads(out)
    return read


@pytest.fixture
def north(tmp_path: Path) -> Path:
    shop = Shop(tmp_path / "north")
    shop.keep(1, "ab")
    shop.keep(2, "a")
    return shop.data


def test_walks_go_out_of_one_folder_and_into_another(
    north: Path, tmp_path: Path, capsys: Capsys
) -> None:
    file, south = tmp_path / "north.zip", tmp_path / "south"
    shared = document(capsys, "share", "-o", file, "--shop", "Depot North", "--data", north)
    assert shared["walks"] == [walk_of(1), walk_of(2)]
    assert (shared["shop"], shared["left_out"]) == ("Depot North", {})
    merged = document(capsys, "merge", file, "--data", south)
    nothing: dict[str, list[str]] = {"conflicts": [], "refused": []}
    assert merged.items() >= {"added": shared["walks"], "same": [], **nothing}.items()
    again = document(capsys, "merge", file, file, "--data", south)
    assert again.items() >= {"added": [], "same": shared["walks"], **nothing}.items()
    (signed,) = set(again["signed"])
    assert signed.startswith("Signed by Depot North, whose key is not known here: ")


def test_only_the_walks_that_are_named_go_out(north: Path, tmp_path: Path, capsys: Capsys) -> None:
    file = tmp_path / "one.zip"
    assert document(capsys, "share", "-o", file, walk_of(2), "--data", north)["walks"] == [
        walk_of(2)
    ]
    status, out, err = ran(capsys, "share", "-o", file, walk_of(9), "--data", north)
    assert (status, out) == (2, "")
    assert "there is no such walk" in err
    assert document(capsys, "verify", file)["walks"] == 1


def test_verify_tells_who_signed_and_ends_with_1_where_something_was_changed(
    north: Path, tmp_path: Path, capsys: Capsys
) -> None:
    file, south = tmp_path / "north.zip", tmp_path / "south"
    ran(capsys, "share", "-o", file, "--shop", "Depot North", "--data", north)
    sound = document(capsys, "verify", file, "--data", south)
    assert (sound["changed"], sound["changes"], sound["walks"]) == (False, [], 2)
    status, out, _ = ran(capsys, "verify", file, "--data", south, "--keep-as", "Depot North")
    assert status == 0
    key = sound["signed_by"]["key"]
    assert out.startswith(f"Signed by Depot North, key {key[:4]}.\nNot a byte was changed: 2 walks")
    file.write_bytes(flipped(file.read_bytes(), 400, 4))
    status, out, err = ran(capsys, "verify", file, "--data", south)
    assert (status, err) == (1, "")
    assert f"Changed since Depot North, key {key[:4]}, signed it." in out


def test_no_key_is_kept_of_a_file_that_was_changed(
    north: Path, tmp_path: Path, capsys: Capsys
) -> None:
    file, south = tmp_path / "north.zip", tmp_path / "south"
    ran(capsys, "share", "-o", file, "--data", north)
    file.write_bytes(flipped(file.read_bytes(), 400, 4))
    status, out, err = ran(capsys, "verify", file, "--keep-as", "Depot North", "--data", south)
    assert (status, out) == (2, "")
    assert "has no signature that holds" in err
    assert not south.exists()


def test_a_file_that_is_not_taken_is_one_sentence(
    north: Path, tmp_path: Path, capsys: Capsys
) -> None:
    (tmp_path / "notes.txt").write_text("tires")
    status, out, err = ran(capsys, "merge", tmp_path / "notes.txt", "--data", north)
    assert (status, out) == (2, "")
    assert err == (
        "walkaround: notes.txt: it is no record file, or damaged; "
        "get it again from where it was shared.\n"
    )


def test_a_walk_that_cannot_be_read_is_left_out_and_told(
    north: Path, tmp_path: Path, capsys: Capsys
) -> None:
    for path in north.rglob(f"{walk_of(1)}.json*"):
        path.write_bytes(b"{}")
    status, out, _ = ran(capsys, "share", "-o", tmp_path / "out.zip", "--data", north)
    assert status == 1
    assert f"Walk {walk_of(1)} is left out: Nothing of walk {walk_of(1)} can be read" in out


def test_two_copies_of_a_walk_are_told(north: Path, tmp_path: Path, capsys: Capsys) -> None:
    south = Shop(tmp_path / "south")
    south.keep(1, "aa")
    file = south.share(tmp_path / "south.zip")
    status, out, _ = ran(capsys, "merge", file, "--data", north)
    assert status == 0
    assert f"Walk {walk_of(1)} went on differently here and there: both copies are kept." in out
