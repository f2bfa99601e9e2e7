"""One PostgreSQL for these tests; a database of its own for each of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from uuid import uuid4

import psycopg
import pytest
from support.postgres import address, server
from support.shops import Shop

from walkaround.exchange.merge import Merged
from walkaround.fleet.publish import Published, publish
from walkaround.fleet.pull import pull

Publishing = Callable[[Shop], Published]
Pulling = Callable[[Shop, str], Merged]


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    with server() as folder:
        yield folder


@pytest.fixture
def database(postgres: str) -> str:
    name = f"fleet_{uuid4().hex}"
    with psycopg.connect(address(postgres), autocommit=True) as link:
        link.execute(f"CREATE DATABASE {name}")
    return address(postgres, name)


@pytest.fixture
def asked(database: str) -> Iterator[psycopg.Connection]:
    with psycopg.connect(database, autocommit=True) as link:
        yield link


@pytest.fixture
def published(database: str) -> Publishing:
    def publishing(shop: Shop) -> Published:
        return publish(database, shop.data, retry_wait_s=0.0)

    return publishing


@pytest.fixture
def pulled(database: str) -> Pulling:
    def pulling(shop: Shop, vehicle: str) -> Merged:
        with shop.open() as (store, walks):
            return pull(database, vehicle, shop.data, store, walks)

    return pulling


@pytest.fixture
def north(tmp_path: Path) -> Shop:
    return Shop(tmp_path / "north", "Depot North")


@pytest.fixture
def south(tmp_path: Path) -> Shop:
    return Shop(tmp_path / "south", "Depot South")
