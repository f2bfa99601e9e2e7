"""What the browser's tab and a screen reader call each screen."""

from __future__ import annotations

from support.app import App

TRAILER, TRACTOR = "sandbag_semitrailer_7", "depot_tractor_2"
ROUTES = (
    "/", "/settings", "/keys", "/pairing", "/records", "/board", "/keeping", "/sharing",
    "/compared", "/vehicles", "/vehicle/new", "/contacts", "/contacts/cable", "/practice",
    f"/start/{TRAILER}", f"/vehicle/{TRAILER}", f"/vehicle/{TRAILER}/edit", f"/board/{TRAILER}",
    f"/contacts/{TRACTOR}", f"/practice/{TRAILER}",
)  # fmt: skip
"""The address of every screen but those of a walk."""


async def test_every_screen_has_a_title_of_its_own(depot: App) -> None:
    walk_id = depot.begin(TRAILER)
    routes = [*ROUTES, f"/walk/{walk_id}", f"/record/{walk_id}", f"/cab/{walk_id}"]
    titles = dict[str, str]()
    for route in routes:
        async with depot.page(route) as screen:
            await screen.settle()
            titles[route] = screen.page.title
    assert titles.pop("/") == "walkaround"
    assert len(set(titles.values())) == len(titles)
    assert all(title.endswith(" - walkaround") for title in titles.values())
