"""A double check: neither walker sees the other's answers until both walks are closed."""

from __future__ import annotations

from pathlib import Path

from starlette.responses import FileResponse
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen
from support.screens_holding import walk_of

from walkaround.comparison.countersignature import Countersignature
from walkaround.exchange.share import share
from walkaround.exchange.verify import verify
from walkaround.walk.events import Answered, Finished
from walkaround.web.files import record_file, shared_file, table_file

SEMITRAILER = "sandbag_semitrailer_7"
WAITS = "Ann walks this vehicle for a double check."
SHUT = f"{WAITS} The answers are shown once both walks are closed."


def closed(depot: App, walk_id: str, who: str, seen: str) -> str:
    """Answer the lamps' walk, all OK but one lamp at the rear, and close it; the step's id."""
    faulty = answered(depot, walk_id, who, seen)
    depot.parts.open_walks.do(walk_id, who, (Finished, {}))
    return faulty


def answered(depot: App, walk_id: str, who: str, seen: str) -> str:
    """The same, but it stays open; all OK if nothing was seen."""
    faulty = ""
    for step in walk_of(depot, walk_id).steps:
        if step.wait:
            depot.clock.wait(step.wait.seconds)
        body: dict[str, object] = {"step": step.id, "answer": "ok"}
        if seen and not faulty and step.kind == "lamp" and step.spot == "rear":
            faulty = step.id
            body |= {"answer": "defect", "seen": {step.items[0].id: seen}}
        elif step.choices:
            body["choice"] = step.choices[0].id
        depot.parts.open_walks.do(walk_id, who, (Answered, body))
    return faulty


async def named(depot: App, who: str) -> None:
    """The name that is typed on every phone from here on."""
    depot.parts.store.change_settings({"who": who, "names": [who]})


async def begun(depot: App) -> str:
    """Ann's walk, begun on the screen for two."""
    await named(depot, "Ann")
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        await screen.click("scope_lamps")
        await screen.click("double_two")
        await screen.click("begin")
        await screen.until(lambda: len(depot.parts.store.overview().lines) == 1)
    return depot.parts.store.overview().lines[0].id


async def joined(depot: App) -> str:
    """Bob's walk, begun from the start screen as the second."""
    await named(depot, "Bob")
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        assert WAITS in screen.texts()
        await screen.click("double_second")
        await screen.until(lambda: len(depot.parts.store.overview().lines) == 2)
    return depot.parts.store.overview().lines[0].id


def shows(screen: Screen, text: str) -> bool:
    return any(text in each for each in screen.texts())


async def test_the_second_walk_has_the_steps_of_the_first_and_its_name(depot: App) -> None:
    first = await begun(depot)
    second = await joined(depot)
    one, other = walk_of(depot, first), walk_of(depot, second)
    assert one.steps == other.steps
    assert other.plan is not None
    assert other.plan.double_of == first
    assert [walk.events[0].who for walk in (one, other)] == ["Ann", "Bob"]
    assert depot.parts.store.overview().pairs == ((first, second),)


async def test_nobody_is_the_second_walker_under_the_name_of_the_first(depot: App) -> None:
    await begun(depot)
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        assert shows(screen, "needs another name")
        assert not screen.has("double_second")


async def test_neither_phone_shows_the_others_answers_until_both_are_closed(depot: App) -> None:
    first = await begun(depot)
    second = await joined(depot)
    faulty = closed(depot, first, "Ann", "dark")
    assert record_file(depot.parts, ENGLISH, f"{first}.json").status_code == 409
    table = table_file(depot.parts, ENGLISH, "walks.csv")
    assert isinstance(table, FileResponse)
    assert first not in Path(table.path).read_text(encoding="utf-8")
    assert shared_file(depot.parts, ENGLISH, f"{first}.zip").status_code == 409
    every = shared_file(depot.parts, ENGLISH, "all.zip")
    assert isinstance(every, FileResponse)
    assert verify(Path(every.path), {}).walks == 0
    # Bob sees neither her record, nor a defect of it in lists, nor "last time" at its step.
    for route in (f"/record/{first}", f"/walk/{first}"):
        async with depot.page(route) as screen:
            assert SHUT in screen.texts()
            assert not shows(screen, "dark")
    for route in ("/", "/records", f"/start/{SEMITRAILER}", "/vehicles"):
        async with depot.page(route) as screen:
            assert not shows(screen, "1 defect")
            assert not shows(screen, "no open defect")
            assert not shows(screen, "dark")
    async with depot.page(f"/walk/{second}") as screen:
        while (here := walk_of(depot, second).here) and here.id != faulty:
            at = len(walk_of(depot, second).answers)
            await screen.click(f"choice_{here.choices[0].id}" if here.choices else "ok")
            await screen.until(lambda at=at: len(walk_of(depot, second).answers) > at)
            await screen.settle()
        assert not shows(screen, "Last time")
    async with depot.page(f"/compared/{second}") as screen:
        assert screen.has("not_yet")
    # Ann sees her own.
    await named(depot, "Ann")
    async with depot.page(f"/record/{first}") as screen:
        assert shows(screen, "dark")
    async with depot.page(f"/record/{second}") as screen:
        assert shows(screen, "Bob walks this vehicle for a double check.")


async def test_a_walk_goes_out_once_both_are_closed(depot: App, tmp_path: Path) -> None:
    first, second = await begun(depot), await joined(depot)
    parts, key = depot.parts, depot.parts.sharing.key()
    closed(depot, first, "Ann", "dark")
    early = share(tmp_path / "early.zip", parts.store, parts.photos, [first], key)
    assert early.walks == []
    assert list(early.left_out) == [first]
    assert "once both walks are closed" in ENGLISH.text(early.left_out[first])
    closed(depot, second, "Bob", "")
    late = share(tmp_path / "late.zip", parts.store, parts.photos, [first], key)
    assert (late.walks, late.left_out) == ([first], {})


async def test_the_second_walker_does_not_clear_what_the_first_found(depot: App) -> None:
    first = await begun(depot)
    faulty = answered(depot, first, "Ann", "dark")
    # The second begins after the first has answered everything, as a recheck would.
    second = await joined(depot)
    answered(depot, second, "Bob", "")
    for walk_id in (first, second):
        depot.parts.open_walks.do(walk_id, "Ann", (Finished, {}))
    assert depot.parts.store.overview().open_defects == {SEMITRAILER: {faulty: first}}


async def test_the_comparison_names_each_difference_and_an_instructor_signs(depot: App) -> None:
    first = await begun(depot)
    second = await joined(depot)
    faulty = closed(depot, first, "Ann", "dark")
    closed(depot, second, "Bob", "dim")
    assert depot.parts.store.overview().blind == frozenset()
    async with depot.page(f"/record/{first}") as screen:
        await screen.click(f"compare_{second}")
        await screen.until(lambda: screen.has(f"differs_{faulty}"))
        texts = screen.texts()
        assert "1 step differs" in texts
        assert any(text.endswith(" dark") for text in texts)
        assert any(text.endswith(" dim") for text in texts)
        assert shows(screen, "Cohen's kappa: ")
        await screen.fill("instructor", "bob")
        await screen.until(lambda: screen.has("sign_other"))
        assert not screen.has("sign")
        await screen.fill("instructor", "Cleo")
        await screen.until(lambda: screen.has("sign"))
        await screen.click("sign")
        await screen.until(lambda: shows(screen, "Signed: Cleo, "))
    [row] = depot.parts.store.saved_checks("double")
    signed = Countersignature.model_validate(row)
    assert signed.holds_for(walk_of(depot, first), walk_of(depot, second))
    assert not signed.holds_for(walk_of(depot, second), walk_of(depot, first))
