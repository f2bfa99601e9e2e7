"""A cable's and a socket's check on screen: one tap where all is well, what is wrong where not."""

from __future__ import annotations

from support.app import App

from walkaround.contacts.check_record import ContactCheck
from walkaround.contacts.socket import OFF

_SWITCHES = ("lamps", "left_turn", "right_turn", "stop", "backup", "blackout", "blackout_stop")


def kept(depot: App) -> list[ContactCheck]:
    """What was kept of cables and sockets."""
    return [ContactCheck.model_validate(row) for row in depot.parts.store.saved_checks("contacts")]


async def test_a_cable_that_is_straight_takes_a_name_and_one_tap(depot: App) -> None:
    async with depot.page("/contacts/cable") as screen:
        await screen.click("plug_sae_j560")
        assert screen.has("needs_name")
        assert not screen.has("ok")
        await screen.fill("cable_name", "Cable 4")
        await screen.until(lambda: screen.has("ok"))
        await screen.click("ok")
        await screen.until(lambda: bool(kept(depot)))
        await screen.until(lambda: "Nothing wrong found" in screen.texts())
    [check] = kept(depot)
    assert (check.kind, check.name, check.connector) == ("cable", "Cable 4", "sae_j560")
    assert not check.faults


async def test_what_a_contact_reaches_is_told_and_recorded(depot: App) -> None:
    async with depot.page("/contacts/cable") as screen:
        await screen.click("plug_sae_j560")
        await screen.fill("cable_name", "Cable 5")
        for near, far in (("3", "5"), ("5", "3")):
            await screen.click(f"contact_{near}")
            await screen.click(f"to_{near}")
            await screen.click(f"to_{far}")
            await screen.click("these_done")
            # While nothing was told of the other one, it is asked for.
            assert screen.has("tell_too") == (near == "3")
        await screen.click("contact_4")
        await screen.click("nothing")
        assert "Contacts 3 and 5 are swapped." in screen.texts()
        await screen.click("record")
        await screen.until(lambda: bool(kept(depot)))
        await screen.until(lambda: "Contact 4 reaches nothing." in screen.texts())
        assert "Contacts 3 and 5 are swapped." in screen.texts()
    [check] = kept(depot)
    assert check.reached == {"3": ("5",), "5": ("3",), "4": ()}
    assert check.faults


async def test_the_name_of_a_cable_checked_before_is_offered(depot: App) -> None:
    async with depot.page("/contacts/cable") as screen:
        await screen.click("plug_sae_j560")
        await screen.fill("cable_name", "Cable 6")
        await screen.click("ok")
        await screen.until(lambda: bool(kept(depot)))
        await screen.click("cable")
        await screen.click("plug_sae_j560")
        await screen.click("name_0")
        await screen.until(lambda: screen.has("ok"))
        await screen.click("ok")
        await screen.until(lambda: len(kept(depot)) > 1)
    assert {check.name for check in kept(depot)} == {"Cable 6"}


async def test_a_tow_vehicles_socket_is_asked_switch_by_switch_then_its_air(depot: App) -> None:
    async with depot.page("/contacts/depot_tractor_2") as screen:
        switches = []
        every = [f"switch_{id_}" for id_ in (OFF, *_SWITCHES)]
        while not screen.has("air_red"):
            [here] = [key for key in every if screen.has(key)]
            switches.append(here)
            if here == "switch_stop":
                await screen.click("defect")
                await screen.click("live_4")
                await screen.click("live_4")
                await screen.click("told_stop")
            else:
                await screen.click("ok")
            await screen.until(lambda here=here: not screen.has(here))
        assert switches[0] == "switch_off"
        assert len(switches) > 4
        await screen.click("ok")
        await screen.until(lambda: screen.has("air_blue"))
        await screen.click("defect")
        await screen.click("record")
        await screen.until(lambda: bool(kept(depot)))
    [check] = kept(depot)
    assert (check.kind, check.vehicle) == ("socket", "depot_tractor_2")
    assert check.seen["stop"] == {"4": "dim"}
    assert (check.red, check.blue) == ("ok", "defect")
    assert [str(fault) for fault in check.faults] == [
        "Stop: dim at 4, too little under load.",
        "Air at blue is not as it should be.",
    ]


async def test_a_row_that_a_later_version_wrote_hides_no_other(depot: App) -> None:
    depot.parts.store.save_check("contacts", {"kind": "wireless", "name": "Later"})
    async with depot.page("/contacts/cable") as screen:
        await screen.click("plug_sae_j560")
        await screen.fill("cable_name", "Cable 7")
        await screen.click("ok")
        await screen.until(lambda: "Cable 7" in screen.texts())
