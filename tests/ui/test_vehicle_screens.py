"""Making, changing, taking in and giving out vehicles, on the real screens without a browser."""

from __future__ import annotations

from typing import Any

import flet as ft
import httpx
import pytest
from support.app import App
from support.flet_harness import Screen
from support.handing import putting
from support.made_up_vehicles import SEMITRAILER

from walkaround.vehicle.model import LampWiring, Vehicle
from walkaround.vehicle.to_toml import vehicle_toml
from walkaround.walk.events import Answered, Finished
from walkaround.web.server import asgi

ID = "sandbag_semitrailer_8"
NEW = f"/vehicle/new/{SEMITRAILER.id}"


def vehicle_of(depot: App, vehicle_id: str = ID) -> Vehicle:
    vehicle = depot.parts.own_vehicles.vehicle(vehicle_id)
    assert vehicle is not None
    return vehicle


def copied(depot: App, **changes: Any) -> str:
    """A vehicle of one's own, made without a page."""
    own = {"name": "Sandbag semitrailer 8", "plate": "", "vin": "", **changes}
    return depot.parts.own_vehicles.save(SEMITRAILER.model_copy(update=own))


async def save(depot: App, screen: Screen, vehicle_id: str = ID) -> Vehicle:
    await screen.click("save")
    await screen.until(lambda: screen.page.route == f"/vehicle/{vehicle_id}" or screen.has("edit"))
    await screen.settle()
    return vehicle_of(depot, vehicle_id)


async def choose(screen: Screen, key: str, *taps: str) -> None:
    """Open a field's sheet and tap on it."""
    await screen.click(key)
    for tap in taps:
        await screen.click(tap)


async def take_in(depot: App, screen: Screen, data: bytes, name: str = "x.toml") -> None:
    """A file is picked; if the page asks for it, the browser hands it over."""
    picker = screen.find("take_in").action.file_picker
    file = {"id": 1, "name": name, "size": len(data), "path": None, "bytes": None}
    asked = len(uploads(screen))
    await screen.fire(picker, "result", {"files": [file]})
    if len(uploads(screen)) > asked:
        ticket = uploads(screen)[-1].upload_url.removeprefix("/received/")
        assert await depot.inbox.receive(ticket, putting(data)) == 204
        for progress in (0.0, 1.0):
            told = {"file_name": name, "progress": progress, "error": None}
            await screen.fire(picker, "upload", told)


def uploads(screen: Screen) -> list[Any]:
    """What the page asked the browser to hand over."""
    return [call.args["files"][0] for call in screen.invoked if call.method == "upload"]


async def test_from_the_first_screen_a_copy_takes_four_taps(depot: App) -> None:
    async with depot.page() as screen:
        await screen.click("vehicles")
        assert "Pump trailer 3" in screen.texts()
        await screen.click("new_vehicle")
        await screen.click(f"copy_{SEMITRAILER.id}")
        vehicle = await save(depot, screen)
    assert vehicle.brakes == SEMITRAILER.brakes
    async with depot.page() as screen:
        assert screen.has(f"vehicle_{ID}")


async def test_choices_on_sheets_make_the_vehicle(depot: App) -> None:
    async with depot.page(NEW) as screen:
        await choose(screen, "kind", "option_full trailer")
        await choose(screen, "made", "years_-10", "years_1", "month_2", "done")
        await choose(screen, "width_mm", "size_2438", "step_more_1", "done")
        await choose(screen, "gvwr_kg", "size_unknown", "done")
        await choose(screen, "electrical.connector", "option_mil_12_us_tactical")
        await screen.click("electrical.led_True")
        await screen.click("electrical.blackout_True")
        await choose(screen, "brakes.axles", "option_3")
        await screen.click("brakes.axles.*.spring_2")
        await choose(screen, "brakes.axles.*.type", "axle_3", "option_20", "close_sheet")
        await choose(screen, "brakes.reservoir_l", "remove_0", "add_46", "done")
        await screen.click("brakes.abs_False")
        vehicle = await save(depot, screen)
    assert vehicle.kind == "full trailer"
    assert vehicle.made.isoformat() == "2005-02-12"
    assert vehicle.width_mm == 2464.0  # 97 in
    assert vehicle.gvwr_kg is None
    electrical = vehicle.electrical
    assert (electrical.volts, electrical.stop_turn) == (24, "combined")
    assert (electrical.led, electrical.blackout) == (True, True)
    assert [axle.spring for axle in vehicle.brakes.axles] == [True, False, True]
    assert [axle.type for axle in vehicle.brakes.axles] == ["30", "30", "20"]
    assert vehicle.brakes.reservoir_l == (60.0, 46.0)
    assert vehicle.brakes.abs is False


async def test_two_quick_taps_on_a_step_are_two_steps(depot: App) -> None:
    async with depot.page(NEW) as screen:
        await screen.click("length_mm")
        await screen.click("unit_0")
        step = screen.target("step_more_10")
        page = screen.page
        for _ in range(2):
            await page.session.dispatch_event(step._i, "click", None)
        await screen.settle()
        # In the unit stepped in, then in the phone's own: 13916 / 304.8 = 45.66.
        assert "13.92 m" in screen.texts()
        await screen.click("done")
        assert "45 ft 8 in" in screen.texts()


async def test_a_shared_shell_is_warned_of_as_soon_as_it_is_chosen(depot: App) -> None:
    async with depot.page(NEW) as screen:
        await choose(screen, "electrical.connector", "option_nato_12_uk")
        assert any("shared by incompatible national wirings" in text for text in screen.texts())
        assert any(text.startswith("24 V") for text in screen.texts())


async def test_a_vin_is_checked_at_every_keystroke_and_its_years_are_not_guessed(
    depot: App,
) -> None:
    async with depot.page(NEW) as screen:
        await screen.fill("vin", "1M8GDM9A1KP042788")
        assert any("is 1 where X would fit" in text for text in screen.texts())
        assert "To be saved, put right: VIN." in screen.texts()
        assert not screen.has("save")
        await screen.fill("vin", "1m8gdm9axkp042788")
        assert "Model year by the VIN: 1989 or 2019." in screen.texts()
        vehicle = await save(depot, screen)
    assert vehicle.vin == "1M8GDM9AXKP042788"


async def test_what_is_typed_is_never_sent_back_while_it_is_being_typed(depot: App) -> None:
    async with depot.page(NEW) as screen:
        field = screen.find("vin")
        await screen.fill("vin", "1M8")
        await screen.click("electrical.led_True")
        assert screen.find("vin") is field
        await screen.fill("name", "Pump trailer 3")
        await screen.click("name_0")
        assert screen.find("name").value == "Pump trailer 4"
        assert screen.find("vin").value == "1M8"


async def test_a_name_of_another_vehicle_is_refused_and_a_free_one_is_offered(depot: App) -> None:
    async with depot.page(NEW) as screen:
        await screen.fill("name", "pump trailer 3")
        assert any("is that of another vehicle" in text for text in screen.texts())
        await screen.click("name_1")
        vehicle = await save(depot, screen, "trailer_1")
    assert vehicle.name == "Trailer 1"


async def test_damage_is_put_together_by_taps_or_typed_and_stands_on_the_vehicles_page(
    depot: App,
) -> None:
    async with depot.page(NEW) as screen:
        await choose(screen, "damage", "Dented", "Rear left", "Bent", "Bent", "Bent", "Bumper")
        await screen.fill("own_words", " hose  chafed ")
        await screen.click("add_own")
        assert screen.find("own_words").value == ""
        await screen.click("remove_1")
        await screen.click("done")
        vehicle = await save(depot, screen)
        assert vehicle.damage == ("Dented: rear left", "hose chafed")
        assert "Dented: rear left" in screen.texts()


async def test_leaving_with_changes_asks_and_without_does_not(depot: App) -> None:
    async with depot.page(NEW) as screen:
        await screen.click("electrical.led_True")
        await screen.click("back")
        await screen.click("stay")
        assert screen.has("save")
        await screen.click("back")
        await screen.click("leave")
        assert screen.has(f"copy_{SEMITRAILER.id}")
        await screen.click(f"copy_{SEMITRAILER.id}")
        await screen.click("back")
        assert screen.has(f"copy_{SEMITRAILER.id}")
    assert depot.parts.own_vehicles.vehicle(ID) is None


async def test_what_cannot_be_saved_is_said_and_nothing_is_lost(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    async with depot.page(NEW) as screen:
        await screen.fill("plate", "FR 0808")
        with monkeypatch.context() as broken:
            broken.setattr("os.fsync", full)
            await screen.click("save")
            await screen.until(lambda: "no room left" in screen.text)
        vehicle = await save(depot, screen)
    assert vehicle.plate == "FR 0808"


async def test_keys_without_a_field_survive_an_edit(depot: App) -> None:
    lamps = (LampWiring(id="tail_left", cluster="rear_centre"),)
    electrical = SEMITRAILER.electrical.model_copy(
        update={"bulbs": {"stop": "1157"}, "lamps": lamps}
    )
    copied(depot, electrical=electrical)
    async with depot.page(f"/vehicle/{ID}/edit") as screen:
        await screen.fill("plate", "FR 0808")
        vehicle = await save(depot, screen)
    assert vehicle.plate == "FR 0808"
    assert (vehicle.electrical.bulbs, vehicle.electrical.lamps) == ({"stop": "1157"}, lamps)


async def test_a_problem_that_no_field_can_mend_is_told_above_all(depot: App) -> None:
    lamps = (LampWiring(id="tail_left", circuit="marker"),)
    copied(depot, electrical=SEMITRAILER.electrical.model_copy(update={"lamps": lamps}))
    async with depot.page(f"/vehicle/{ID}/edit") as screen:
        await choose(screen, "electrical.connector", "option_mil_12_us_tactical")
        assert any("electrical.lamps tail_left.circuit" in text for text in screen.texts())
        assert not screen.has("save")
        await choose(screen, "electrical.connector", "option_sae_j560")
        assert screen.has("save")


async def test_only_ones_own_vehicles_can_be_changed_or_deleted(depot: App) -> None:
    async with depot.page(f"/vehicle/{SEMITRAILER.id}") as screen:
        assert screen.has("copy")
        assert not screen.has("edit")
        assert not screen.has("delete")
    async with depot.page(f"/vehicle/{SEMITRAILER.id}/edit") as screen:
        assert not screen.has("save")


async def test_a_deleted_vehicle_is_asked_for_once_and_its_file_is_kept(depot: App) -> None:
    copied(depot)
    async with depot.page(f"/vehicle/{ID}") as screen:
        await screen.click("delete")
        await screen.click("keep")
        await screen.click("delete")
        await screen.click("delete_yes")
        await screen.until(lambda: screen.has("new_vehicle"))
        assert not screen.has(f"about_{ID}")
    assert (depot.parts.data / "vehicles" / "removed" / f"{ID}.toml").exists()


async def test_a_renamed_vehicle_keeps_its_walks(depot: App) -> None:
    copied(depot)
    depot.begin(ID)
    async with depot.page(f"/vehicle/{ID}/edit") as screen:
        await screen.fill("name", "Tanker 9")
        vehicle = await save(depot, screen)
        assert (vehicle.id, vehicle.name) == (ID, "Tanker 9")
        assert "Walks" in screen.texts()


async def test_the_page_of_a_vehicle_shows_what_it_is_and_its_open_defects_loud(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER.id, scope="lamps")
    open_walks = depot.parts.open_walks
    while (here := open_walks.walk(walk_id).here) is not None and here.kind != "lamp":
        open_walks.do(walk_id, "Kim", (Answered, {"step": here.id, "answer": "ok"}))
    assert here is not None
    found = {"step": here.id, "answer": "defect", "seen": {here.items[0].id: "dark"}}
    open_walks.do(walk_id, "Kim", (Answered, found), (Finished, {}))
    async with depot.page(f"/vehicle/{SEMITRAILER.id}") as screen:
        assert "1 open defect" in screen.texts()
        assert any("dark" in text for text in screen.texts())
        assert any("class D" in text for text in screen.texts())
        assert any(text.startswith("Tail lamps (pin 6)") for text in screen.texts())
        await screen.click(f"defect_{here.id}")
        await screen.until(lambda: screen.has("recheck"))
    async with depot.page(f"/vehicle/{SEMITRAILER.id}") as screen:
        await screen.click(f"walk_{walk_id}")
        await screen.until(lambda: screen.has("recheck"))
    async with depot.page(f"/vehicle/{SEMITRAILER.id}") as screen:
        await screen.click("start")
        assert screen.has("begin")


async def test_a_vehicle_file_with_problems_shows_them_all_and_saves_nothing(depot: App) -> None:
    bad = b'id = "Bad one"\nkind = "semitrailr"\nmade = 2099-01-01\n'
    async with depot.page("/vehicles") as screen:
        await take_in(depot, screen, bad, "bad.toml")
        assert "Not taken in: 6 things are wrong in bad.toml" in screen.texts()
        assert any("perhaps semitrailer is meant" in text for text in screen.texts())
    assert not list((depot.parts.data).glob("vehicles/*"))


async def test_a_file_that_is_too_large_is_refused_before_it_is_sent(depot: App) -> None:
    async with depot.page("/vehicles") as screen:
        await take_in(depot, screen, b"#" * 100_001)
        assert any("but a vehicle file has 100 kB at most" in text for text in screen.texts())
        assert not uploads(screen)


async def test_a_file_that_does_not_come_is_told_of(depot: App) -> None:
    async with depot.page("/vehicles") as screen:
        picker = screen.find("take_in").action.file_picker
        file = {"id": 1, "name": "x.toml", "size": 9, "path": None, "bytes": None}
        await screen.fire(picker, "result", {"files": [file]})
        lost = {"file_name": "x.toml", "progress": None, "error": "connection closed"}
        await screen.fire(picker, "upload", lost)
        assert any("did not come over the network" in text for text in screen.texts())


async def test_a_vehicle_file_is_taken_in_with_its_id_and_shown(depot: App) -> None:
    vehicle = SEMITRAILER.model_copy(update={"id": "tanker", "name": "Tanker 9"})
    async with depot.page("/vehicles") as screen:
        await take_in(depot, screen, vehicle_toml(vehicle).encode())
        await screen.until(lambda: "Tanker 9" in screen.texts() and screen.has("edit"))
    assert vehicle_of(depot, "tanker") == vehicle


async def test_a_name_that_is_here_already_asks_to_keep_both(depot: App) -> None:
    other = SEMITRAILER.model_copy(update={"length_mm": 12192.0})
    async with depot.page("/vehicles") as screen:
        await take_in(depot, screen, vehicle_toml(SEMITRAILER).encode())
        assert any("is here already, just as in this file" in text for text in screen.texts())
        await take_in(depot, screen, vehicle_toml(other).encode())
        assert "There is a Sandbag semitrailer 7 already." in screen.texts()
        await screen.click("leave_it")
        assert not screen.has("keep_both")
        await take_in(depot, screen, vehicle_toml(other).encode())
        await screen.click("keep_both")
        await screen.until(lambda: screen.has("edit"))
    assert vehicle_of(depot).length_mm == 12192.0


async def test_a_vehicle_is_given_out_as_the_file_that_takes_it_in_again(depot: App) -> None:
    copied(depot)
    async with depot.page(f"/vehicle/{ID}") as screen:
        url = screen.find("export").url
        assert isinstance(url, ft.Url)
    transport = httpx.ASGITransport(asgi(depot.parts))
    async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1") as client:
        told = await client.get(url.url)
        missing = [await client.get(f"/vehicles/{name}") for name in ("nobody.toml", f"{ID}.csv")]
    assert told.headers["content-disposition"] == f'attachment; filename="{ID}.toml"'
    assert depot.parts.own_vehicles.parse_file(told.content, "x") == vehicle_of(depot)
    assert [each.status_code for each in missing] == [404, 404]


@pytest.mark.parametrize("dark", [False, True])
async def test_every_control_of_the_form_and_the_page_has_a_name_to_be_spoken(
    depot: App, dark: bool
) -> None:
    copied(depot, damage=("Dented: rear left",))
    for route in ("/vehicles", "/vehicle/new", NEW, f"/vehicle/{ID}"):
        async with depot.page(route, dark=dark) as screen:
            for control in screen.controls(ft.Button):
                assert control.key
                inside = [c for c in screen.controls(ft.Text) if within(c, control)]
                assert any(text.semantics_label or text.value for text in inside), control.key


def within(control: Any, around: Any) -> bool:
    while control is not None and control is not around:
        control = control.parent
    return control is around


async def test_an_address_of_no_vehicle_leads_to_the_list(depot: App) -> None:
    for route in ("/vehicle/nobody", "/vehicle/new/nobody", "/vehicle/nobody/edit"):
        async with depot.page(route) as screen:
            assert screen.has("take_in")


async def test_the_page_of_a_vehicle_leads_to_the_card_of_each_source_of_power(depot: App) -> None:
    async with depot.page("/vehicle/sandbag_semitrailer_7") as screen:
        for power in ("box", "cab"):
            url = screen.find(f"card_{power}").url.url
            assert url == f"/cards/sandbag_semitrailer_7.pdf?language=en&power={power}"
