"""A month that cannot be read, on the screens that list walks: said until it can be."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.app import app
from support.flet_harness import Screen
from support.shutfolders import shut
from support.stores import forget_month, saved

from walkaround.disk import locations
from walkaround.records.store import WalkStore

OLD = "20240315_081502_4f3a9c"
OTHER = "20240515_081502_4f3a9c"
SAID = "2024-03 cannot be read (permission denied); make it readable for this user."


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A folder with a walk in each of two months; of the first no line is kept."""
    folder = tmp_path / "data"
    store = WalkStore(folder)
    saved(store, OLD)
    saved(store, OTHER)
    store.close()
    forget_month(folder, "2024-03")
    return folder


def says(screen: Screen) -> int:
    return sum(text.endswith(SAID) for text in screen.texts())


async def test_the_first_screen_and_the_records_say_it_until_the_month_can_be_read(
    data: Path,
) -> None:
    with shut(locations.walks(data) / "2024-03") as open_again:
        async with app(data) as depot, depot.page() as screen:
            assert says(screen) == 1
            assert screen.has(f"go_on_{OTHER}")
            assert not screen.has(f"go_on_{OLD}")
            await screen.click("records")
            assert says(screen) == 1
            assert screen.has(f"record_{OTHER}")
            assert not screen.has(f"record_{OLD}")
            open_again()
            await screen.click("back")
            assert says(screen) == 0
            assert screen.has(f"go_on_{OLD}")
            await screen.click("records")
            assert says(screen) == 0
            assert screen.has(f"record_{OLD}")


async def test_records_of_which_none_can_be_read_are_not_said_to_be_none(data: Path) -> None:
    folders = [locations.walks(data) / month for month in ("2024-03", "2024-05")]
    forget_month(data, "2024-05")
    with shut(folders[0]), shut(folders[1]):
        async with app(data) as depot, depot.page("/records") as screen:
            assert "2024-03 and" in screen.text
            assert "No walk yet" not in screen.text


async def test_a_walk_of_a_month_that_cannot_be_read_says_so_when_it_is_opened(data: Path) -> None:
    with shut(locations.walks(data) / "2024-05"):
        async with app(data) as depot, depot.page() as screen:
            await screen.click(f"go_on_{OTHER}")
            assert "This walk cannot be opened" in screen.texts()
            assert f"{OTHER}.json cannot be read (permission denied); make it" in screen.text


async def test_a_walk_begins_although_an_old_month_cannot_be_read(data: Path) -> None:
    with shut(locations.walks(data) / "2024-03"):
        async with app(data) as depot:
            walk_id = depot.begin("pump_trailer_3")
            async with depot.page() as screen:
                assert says(screen) == 1
                assert screen.has(f"go_on_{walk_id}")
