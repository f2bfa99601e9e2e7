"""What a page is called: by the browser in its tab, and by screen readers when it has changed."""

from __future__ import annotations

from walkaround.base.errors import WalkaroundError
from walkaround.ui.page.view import View

_BY_ROUTE = {
    "settings": "settings-title",
    "records": "records-title",
    "vehicles": "vehicles-title",
    "pairing": "pairing-title",
}


def page_title(view: View) -> str:
    """Name the screen: the step that is shown, the vehicle, or what is listed."""
    app, (head, _, rest) = view.words("app-name"), view.route.strip("/").partition("/")
    if head in _BY_ROUTE:
        return view.words("page-title", screen=view.words(_BY_ROUTE[head]), app=app)
    if head in ("start", "vehicle") and (vehicle := view.parts.own_vehicles.vehicle(rest)):
        return view.words("page-title", screen=vehicle.name, app=app)
    if view.walk_id:
        try:
            plan = view.walk.plan
        except WalkaroundError:
            return app
        if plan is not None:
            step = plan.step(view.step) if head == "walk" else None
            screen = view.words.text(step.title) if step else plan.vehicle.name
            return view.words("page-title", screen=screen, app=app)
    return app
