"""What the browser says of a page: its title, and that the server cannot be reached."""

from __future__ import annotations

from walkaround.base.errors import WalkaroundError
from walkaround.ui.page.view import View
from walkaround.words.language import Words

_UNLINKED = ("saved", "valves", "looking", "stay")
_BY_ROUTE = {
    "settings": "settings-title",
    "records": "records-title",
    "vehicles": "vehicles-title",
    "practice": "practice-title",
    "pairing": "pairing-title",
}


def page_title(view: View) -> str:
    """Name the screen: the vehicle that it is about, or what is listed."""
    app, (head, _, rest) = view.words("app-name"), view.route.strip("/").partition("/")
    if head in _BY_ROUTE and not view.walk_id:
        return view.words("page-title", screen=view.words(_BY_ROUTE[head]), app=app)
    if head in ("start", "vehicle") and (vehicle := view.parts.own_vehicles.vehicle(rest)):
        return view.words("page-title", screen=vehicle.name, app=app)
    if view.walk_id:
        try:
            plan = view.walk.plan
        except WalkaroundError:
            return app
        if plan is not None:
            # Not by its steps, each of which has a heading: naming a page draws all of it.
            return view.words("page-title", screen=plan.vehicle.name, app=app)
    return app


def unlinked(words: Words) -> dict[str, str]:
    """Say what the page shows by itself while it has no connection, by what each is for."""
    return {"language": words.language} | {
        name: words(f"page-no-link-{name}") for name in _UNLINKED
    }
