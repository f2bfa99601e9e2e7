"""The published JSON Schema says what record files hold, and record files hold what it says."""

from __future__ import annotations

import json
import tarfile
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, ValidationError
from support.plans import shipped_plans
from support.shops import Shop, contents, lines, picture, walk_of
from support.walks import FakeClock

from walkaround.disk.locations import shipped
from walkaround.exchange.schema import record_file_schema
from walkaround.records.open_walks import OpenWalks
from walkaround.records.store import WalkStore

SCHEMA = json.loads((shipped() / "record_file.schema.json").read_text(encoding="utf-8"))
BEFORE = Path(__file__).parents[1] / "records" / "data" / "folder_before.tar.xz"


def of(entry: str) -> Draft202012Validator:
    schema: dict[str, Any] = SCHEMA
    if entry != "walks.ndjson":
        schema = {"$ref": f"#/$defs/{entry}", "$defs": SCHEMA["$defs"]}
    return Draft202012Validator(schema)


def test_the_published_schema_is_a_schema_and_says_what_the_models_say() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert record_file_schema() == SCHEMA


def test_a_record_file_is_valid_by_it(tmp_path: Path) -> None:
    shop = Shop(tmp_path / "north", "Depot North")
    shop.keep(1, "ab")
    shop.photograph(1, picture())
    store = WalkStore(shop.data)
    for plan in list(shipped_plans().values())[:1]:
        OpenWalks(store, FakeClock()).begin(plan, "Ana")
    store.close()
    file = shop.share(tmp_path / "north.zip")
    entries = contents(file)
    of("walkaround.json").validate(json.loads(entries["walkaround.json"]))
    rows = lines(entries["walks.ndjson"])
    assert len(rows) == 2
    for row in rows:
        of("walks.ndjson").validate(row)


def test_the_walks_of_the_version_before_are_valid_by_it_and_come_in(tmp_path: Path) -> None:
    with tarfile.open(BEFORE) as before:
        before.extractall(tmp_path / "before", filter="data")
    (data,) = {path.parent for path in (tmp_path / "before").rglob("walks")}
    shop, other = Shop(data), Shop(tmp_path / "other")
    file = shop.share(tmp_path / "before.zip")
    rows = lines(contents(file)["walks.ndjson"])
    assert len(rows) > 20
    for row in rows[::16]:
        of("walks.ndjson").validate(row)
    merged = other.merge(file)
    assert merged.added == {row["walk"] for row in rows}
    assert contents(other.share(tmp_path / "again.zip")) == contents(file)


@pytest.mark.parametrize("missing", ["walk", "events", "signed"])
def test_a_line_that_lacks_something_is_not(tmp_path: Path, missing: str) -> None:
    shop = Shop(tmp_path / "north")
    shop.keep(1, "a")
    (row,) = lines(contents(shop.share(tmp_path / "north.zip"))["walks.ndjson"])
    assert row["walk"] == walk_of(1)
    del row[missing]
    with pytest.raises(ValidationError):
        of("walks.ndjson").validate(row)
