"""What comes out of a fleet's database is checked as a record file is."""

from __future__ import annotations

import re

import psycopg
import pytest
from fleet.conftest import Publishing, Pulling
from support.shops import PLAN, Shop, picture, walk_of

from walkaround.base.errors import InputError
from walkaround.records.photos import PhotoFolder

VEHICLE = PLAN.vehicle.id


@pytest.fixture
def there(north: Shop, published: Publishing) -> str:
    """Two walks of Depot North in the database; the photo of the first."""
    north.keep(1, "ab")
    north.keep(2, "b")
    photo = north.photograph(1, picture())
    published(north)
    return photo


def test_the_walks_of_a_vehicle_come_with_photos_and_who_signed_them(
    there: str, south: Shop, pulled: Pulling
) -> None:
    merged = pulled(south, VEHICLE)
    assert (merged.added, merged.refused) == ({walk_of(1), walk_of(2)}, {})
    assert south.walks() == {walk_of(1): {"ab"}, walk_of(2): {"b"}}
    assert PhotoFolder(south.data).read(walk_of(1), there) == picture()
    with south.open() as (store, _):
        assert store.read(walk_of(2)).origin.signed[0]["shop"] == "Depot North"
    assert pulled(south, VEHICLE).same == {walk_of(1), walk_of(2)}


def test_copies_that_went_on_differently_are_both_pulled(
    there: str, south: Shop, tmp_path_factory: pytest.TempPathFactory,
    published: Publishing, pulled: Pulling,
) -> None:  # fmt: skip
    south.keep(2, "aa")
    published(south)
    west = Shop(tmp_path_factory.mktemp("west"))
    assert pulled(west, VEHICLE).conflicts == {walk_of(2)}
    assert west.walks()[walk_of(2)] == {"b", "aa"}
    assert there


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (
            "UPDATE walkaround.events SET body = replace(body, 'Ana', 'Eva') WHERE seq = 1",
            "entry 2",
        ),
        ("UPDATE walkaround.events SET body = 'null' WHERE seq = 1", "entry 2"),
        ("DELETE FROM walkaround.events WHERE seq = 1", "entry 1|was cut"),
        ("DELETE FROM walkaround.events WHERE seq = 3", "cut"),
        ("UPDATE walkaround.signatures SET body = replace(body, 'North', 'South')", "forged"),
        ("UPDATE walkaround.signatures SET body = '{'", ""),
        ("UPDATE walkaround.photos SET jpeg = 'another'", "photo"),
        ("DELETE FROM walkaround.photos", "photo"),
    ],
)
def test_rows_that_were_tampered_with_are_refused_by_name(
    there: str, south: Shop, pulled: Pulling, asked: psycopg.Connection, change: str, why: str
) -> None:
    of_one = f" {'AND' if 'WHERE' in change else 'WHERE'} walk = '{walk_of(1)}'"
    asked.execute(change + ("" if "photos" in change else of_one))  # type: ignore[arg-type]
    merged = pulled(south, VEHICLE)
    assert walk_of(2) in merged.added
    if why:
        assert re.search(why, str(merged.refused[walk_of(1)]))
        assert walk_of(1) not in south.walks()
    else:
        with south.open() as (store, _):
            assert store.read(walk_of(1)).origin.signed == ()
    assert there


def test_a_walk_that_was_published_for_another_vehicle_is_not_pulled(
    there: str, south: Shop, pulled: Pulling
) -> None:
    with pytest.raises(InputError, match="no walk of a vehicle"):
        pulled(south, "another_trailer")
    assert there
