"""Whether a record file is as it was shared: every change is found, and named.

Ed25519 is held against the vectors of RFC 8032, section 7.1.
"""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

import pytest
from support.shops import (
    Shop,
    as_lines,
    contents,
    lines,
    picture,
    plain_rows,
    rewritten,
    sealed,
    walk_of,
)
from support.walks import flipped

from walkaround.base.errors import InputError
from walkaround.exchange.shop_key import ShopKey, is_signed_by, known_shops, save_known_shop
from walkaround.exchange.verify import Verified, verify
from walkaround.walk.seals import GENESIS

WALK = walk_of(1)


@pytest.fixture
def north(tmp_path: Path) -> Shop:
    """A shop with a walk of three entries and a photo, and one walk besides."""
    shop = Shop(tmp_path / "north", "Depot North")
    shop.keep(1, "ab")
    shop.photograph(1, picture())
    shop.keep(2, "a")
    return shop


@pytest.fixture
def file(north: Shop, tmp_path: Path) -> Path:
    return north.share(tmp_path / "north.zip")


def said(told: Verified) -> list[str]:
    return [str(what) for _, what in told.faults]


def test_a_file_as_it_was_shared_is_said_to_be_so(file: Path, north: Shop) -> None:
    told = verify(file, {})
    assert said(told) == []
    assert (told.walks, told.photos) == (2, 1)
    key = ShopKey.of(north.data)
    assert told.signer is not None
    assert (told.signer.shop, told.signer.key) == ("Depot North", key.public)
    assert "not known here" in str(told.signer_message)
    known = verify(file, {key.public: "Depot North"})
    assert str(known.signer_message) == f"Signed by Depot North, key {key.public[:4]}."


def test_any_byte_that_is_flipped_is_found(file: Path, tmp_path: Path) -> None:
    """Each hundredth byte, the file's ends, and every part of the list of entries."""
    data, bad = file.read_bytes(), tmp_path / "bad.zip"
    places = {*range(0, len(data), 97), *range(40), *range(len(data) - 400, len(data), 3)}
    for place in sorted(places):
        bad.write_bytes(flipped(data, place, 1 << place % 8))
        assert verify(bad, {}).faults, place


@pytest.mark.parametrize("cut", [1, 64, 65, 86, 200, 1000])
def test_a_file_that_was_cut_off_is_found(file: Path, tmp_path: Path, cut: int) -> None:
    (tmp_path / "bad.zip").write_bytes(file.read_bytes()[:-cut])
    assert verify(tmp_path / "bad.zip", {}).faults


def forged(file: Path, tmp_path: Path, change: object, *, stripped: bool = True) -> Verified:
    """What is found of a file whose first walk was changed by whoever zipped it anew.

    Whoever does strips the signature of the whole file, which would tell at once.
    """

    def walks(data: bytes) -> bytes:
        rows = lines(data)
        change(rows)  # type: ignore[operator]
        return as_lines(rows)

    changes = {"walks.ndjson": walks}
    if stripped:
        changes["signature.json"] = lambda _: None  # type: ignore[assignment,return-value]
    return verify(rewritten(file, tmp_path / "forged.zip", changes), {})


def test_an_entry_that_was_changed_is_named(file: Path, tmp_path: Path) -> None:
    def change(rows: list[dict]) -> None:
        rows[0]["events"][1]["text"] = "all is well"

    told = forged(file, tmp_path, change)
    assert (WALK, f"Walk {WALK}: entry 2 of 4 was changed, or one before it was taken out.") in [
        (walk, str(what)) for walk, what in told.faults
    ]


def test_a_chain_that_was_cut_in_its_middle_is_named(file: Path, tmp_path: Path) -> None:
    told = forged(file, tmp_path, lambda rows: rows[0]["events"].pop(1))
    assert f"Walk {WALK}: entry 2 of 3 was changed, or one before it was taken out." in said(told)


def test_a_chain_that_was_cut_at_its_end_is_named_where_it_was_signed(
    file: Path, north: Shop, tmp_path: Path
) -> None:
    told = forged(file, tmp_path, lambda rows: rows[0]["events"].pop())
    key = ShopKey.of(north.data).public[:4]
    cut = f"Walk {WALK} was cut: Depot North, key {key}, signed 4 entries, 3 are here."
    assert cut in said(told)


def test_a_walk_rewritten_and_sealed_anew_is_changed_since_it_was_signed(
    file: Path, north: Shop, tmp_path: Path
) -> None:
    """By whoever knows how seals are made; only the signature shows it."""

    def change(rows: list[dict]) -> None:
        rows[0]["events"][3] = sealed_row({**rows[0]["events"][3], "who": "Nobody"}, rows[0])

    def sealed_row(event: dict, walk: dict) -> dict:
        body = {key: value for key, value in event.items() if key != "digest"}
        text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        link = walk["events"][event["seq"] - 1]["digest"] if event["seq"] else GENESIS
        return {**body, "digest": sha256(f"{link}\n{text}".encode()).hexdigest()}

    told = forged(file, tmp_path, change)
    key = ShopKey.of(north.data).public[:4]
    assert said(told) == [f"Changed since Depot North, key {key}, signed it."]


def test_a_forged_signature_of_a_walk_is_named(file: Path, tmp_path: Path) -> None:
    def change(rows: list[dict]) -> None:
        rows[0]["signed"][0]["shop"] = "Depot South"

    told = forged(file, tmp_path, change)
    assert any("the signature of Depot South" in text and "forged" in text for text in said(told))


def test_a_forged_signature_of_the_file_is_named(file: Path, tmp_path: Path) -> None:
    def change(data: bytes) -> bytes:
        return json.dumps({**json.loads(data), "shop": "Depot South"}).encode()

    told = verify(rewritten(file, tmp_path / "forged.zip", {"signature.json": change}), {})
    assert any("Changed since Depot South" in text for text in said(told))


def test_a_shop_that_uses_the_name_of_another_is_named(file: Path, tmp_path: Path) -> None:
    liar = Shop(tmp_path / "liar", "Depot North")
    liar.keep(3, "b")
    false = liar.share(tmp_path / "false.zip")
    known = {verify(file, {}).signer.key: "Depot North"}  # type: ignore[union-attr]
    assert said(verify(file, known)) == []
    (fault,) = said(verify(false, known))
    assert "this is not the key kept of Depot North" in fault


def test_a_swapped_photo_is_named(file: Path, tmp_path: Path) -> None:
    photo = sha256(picture()).hexdigest()
    changes = {f"photos/{photo}.jpg": lambda _: picture(200), "signature.json": lambda _: None}
    told = verify(rewritten(file, tmp_path / "bad.zip", changes), {})
    named = f"Walk {WALK}: photo {photo[:8]} is missing or is not the one that was taken."
    assert said(told) == [named]
    changes[f"photos/{photo}.jpg"] = lambda _: None
    assert said(verify(rewritten(file, tmp_path / "bad.zip", changes), {})) == [named]


def test_a_file_that_nobody_signed_is_said_to_be_so(file: Path, tmp_path: Path) -> None:
    def unsigned(data: bytes) -> bytes:
        return as_lines({**row, "signed": []} for row in lines(data))

    changes = {"walks.ndjson": unsigned, "signature.json": lambda _: None}
    told = verify(rewritten(file, tmp_path / "plain.zip", changes), {})  # type: ignore[arg-type]
    assert said(told) == []
    assert told.signer is None
    assert str(told.signer_message) == "Not signed."


def test_walks_that_stand_twice_or_out_of_order_are_named(file: Path, tmp_path: Path) -> None:
    assert forged(file, tmp_path, lambda rows: rows.append(rows[0])).faults
    assert forged(file, tmp_path, lambda rows: rows.reverse()).faults


def test_a_walk_under_the_id_of_another_is_named(file: Path, tmp_path: Path) -> None:
    told = forged(file, tmp_path, lambda rows: rows[1].update(walk=walk_of(3), signed=[]))
    assert said(told) == [f"Walk {walk_of(3)} is walk {walk_of(2)} by its first entry."]


def test_an_entry_of_a_later_version_is_told_from_a_changed_one(file: Path, tmp_path: Path) -> None:
    def change(rows: list[dict]) -> None:
        events = plain_rows(2, "a")
        later = {**events[1], "kind": "inspected_by_drone"}
        body = {key: value for key, value in later.items() if key != "digest"}
        text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        digest = sha256(f"{events[0]['digest']}\n{text}".encode()).hexdigest()
        rows[1] = {
            "walk": walk_of(2),
            "events": [events[0], {**body, "digest": digest}],
            "signed": [],
        }

    (fault,) = said(forged(file, tmp_path, change))
    assert "is of a later version; update walkaround" in fault


def test_a_file_of_a_later_version_is_told(file: Path, tmp_path: Path) -> None:
    head = {"form": "walkaround record file", "version": 2}
    changes = {"walkaround.json": lambda _: json.dumps(head).encode()}
    told = verify(rewritten(file, tmp_path / "later.zip", changes), {})
    assert said(told) == ["a later version of walkaround wrote it"]


def test_a_file_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no file"):
        verify(tmp_path / "none.zip", {})


def test_a_walk_that_went_on_since_is_still_signed_up_to_there(file: Path, tmp_path: Path) -> None:
    south = Shop(tmp_path / "south", "Depot South")
    south.merge(file)
    south.photograph(2, picture(9))
    second = south.share(tmp_path / "south.zip")
    told = verify(second, {})
    assert said(told) == []
    row = lines(contents(second)["walks.ndjson"])[1]
    assert sorted((one["shop"], one["entries"]) for one in row["signed"]) == [
        ("Depot North", 2),
        ("Depot South", 3),
    ]


def test_a_key_is_made_once_and_only_this_user_can_read_it(tmp_path: Path) -> None:
    first = ShopKey.of(tmp_path)
    assert ShopKey.of(tmp_path).public == first.public
    file = tmp_path / "sharing" / "shop_key.pem"
    assert file.stat().st_mode & 0o077 == 0
    assert file.parent.stat().st_mode & 0o077 == 0


def test_a_damaged_key_is_told_and_never_made_anew(tmp_path: Path) -> None:
    ShopKey.of(tmp_path)
    file = tmp_path / "sharing" / "shop_key.pem"
    file.write_bytes(file.read_bytes()[:60])
    with pytest.raises(Exception, match="is damaged, the key by which this shop signs"):
        ShopKey.of(tmp_path)
    assert len(file.read_bytes()) == 60


def test_keys_of_other_shops_are_kept_by_their_names(tmp_path: Path) -> None:
    save_known_shop(tmp_path, "3f" * 32, "Depot\u202e North\n")
    assert known_shops(tmp_path) == {"3f" * 32: "Depot North"}
    (tmp_path / "sharing" / "known_shops.json").write_text("[]")
    with pytest.raises(Exception, match="keys of other shops"):
        known_shops(tmp_path)


@pytest.mark.parametrize(
    ("key", "text", "signature"),
    [
        (
            "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
            "",
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bac"
            "c61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        ),
        (
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            "72",
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e"
            "458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        ),
    ],
)
def test_signatures_are_those_of_the_standard(key: str, text: str, signature: str) -> None:
    assert is_signed_by(key, bytes.fromhex(text), signature)
    assert not is_signed_by(key, bytes.fromhex(text) + b"0", signature)


def test_whoever_changes_the_seal_of_a_file_changes_nothing_else(file: Path) -> None:
    before = file.read_bytes()
    assert sealed(file).read_bytes() == before
