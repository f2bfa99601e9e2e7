"""What the browser says of a page: its title, and that the server cannot be reached."""

from __future__ import annotations

from walkaround.base.errors import WalkaroundError
from walkaround.ui.page.view import View
from walkaround.words.language import Words

_UNLINKED = ("saved", "valves", "looking", "stay")
_BY_ROUTE = {
    "settings": "settings-title",
    "keys": "keys-title",
    "pairing": "pairing-title",
    "records": "records-title",
    "board": "board-title",
    "keeping": "keeping-title",
    "sharing": "sharing-title",
    "compared": "double-title",
    "vehicles": "vehicles-title",
    "vehicle": "vehicles-title",
    "vehicle/new": "vehicle-new",
    "contacts": "contacts-title",
    "contacts/cable": "contacts-cable",
    "practice": "practice-title",
}
_AT_VEHICLE = frozenset({"start", "vehicle", "board", "contacts", "practice"})


def page_title(view: View) -> str:
    """Name the screen: what it is, and the vehicle that it is about, if it is about one."""
    app, screen = view.words("app-name"), _screen(view)
    return view.words("page-title", screen=screen, app=app) if screen else app


def _screen(view: View) -> str:
    head, _, rest = view.route.strip("/").partition("/")
    if view.walk_id:
        try:
            plan = view.walk.plan
        except WalkaroundError:
            return ""
        # Not by its steps, each of which has a heading: naming a page draws all of it.
        return view.words(f"page-at-{head}", vehicle=plan.vehicle.name) if plan else ""
    id_, _, tail = rest.partition("/")
    vehicle = view.parts.own_vehicles.vehicle(id_) if head in _AT_VEHICLE else None
    if vehicle is not None:
        name = tail if tail == "edit" else head
        return view.words(f"page-at-{name}", vehicle=vehicle.name)
    title = _BY_ROUTE.get(f"{head}/{id_}") or _BY_ROUTE.get(head)
    return view.words(title) if title else ""


def offline_texts(words: Words) -> dict[str, str]:
    """Say what the page shows by itself while it has no connection, by what each is for."""
    return {"language": words.language} | {
        name: words(f"page-no-link-{name}") for name in _UNLINKED
    }
