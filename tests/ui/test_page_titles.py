"""What the browser's tab and a screen reader call each screen, and which title has the focus."""

from __future__ import annotations

from support.app import App
from support.english import ENGLISH

from walkaround.walk.answers import has_many_lamps
from walkaround.walk.events import Answered

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


async def test_while_many_lamps_are_told_the_title_of_their_step_has_the_focus(
    patient: App,
) -> None:
    walk_id = patient.begin("sandbag_semitrailer_7", scope="lamps", together=True)
    walks = patient.parts.open_walks
    async with patient.page(f"/walk/{walk_id}") as screen:
        while (step := walks.walk(walk_id).here) and not has_many_lamps(step):
            title = screen.find(ENGLISH.text(step.title)).parent
            assert bool(getattr(title, "focused", False)) == bool(step.choices)
            body: dict[str, object] = {"step": step.id, "answer": "ok"}
            body |= {"choice": step.choices[0].id} if step.choices else {}
            walks.do(walk_id, "Kim", (Answered, body))
            await screen.settle()
        assert step is not None
        await screen.until(lambda: screen.has("listen"))
        assert screen.find(ENGLISH.text(step.title)).parent.focused
