"""Where a page is: the walk that its address names, and the folder that this walk is kept in."""

from __future__ import annotations

from walkaround.bootstrap import Parts
from walkaround.practice.vehicle import PracticeVehicle
from walkaround.ui.practice_vehicles import practice_vehicle_of

PRACTICE = "/practice"
"""How the addresses of practice begin."""


class PageLocation:
    """The address of a page and what follows from it.

    Attributes:
        route: the address inside the app; `/walk/ID` survives a restart of the server.
    """

    def __init__(self, parts: Parts, route: str) -> None:
        self._parts, self.route = parts, route
        self._practiced: tuple[str, PracticeVehicle | None] = "", None

    @property
    def practices(self) -> bool:
        """Whether it is one of the screens of practice."""
        return f"{self.route}/".startswith(f"{PRACTICE}/")

    @property
    def parts(self) -> Parts:
        """What the app is made of; in practice with walks of its own."""
        return self._parts.practice if self.practices else self._parts

    @property
    def walk_id(self) -> str:
        """The walk that this page is at, or nothing."""
        head, _, rest = self.route.removeprefix(PRACTICE).strip("/").partition("/")
        return rest if head in ("walk", "record", "cab") else ""

    @property
    def in_cab(self) -> bool:
        """Whether this page only shows what to switch, while another one answers."""
        return self.route.startswith("/cab/")

    @property
    def practice(self) -> PracticeVehicle | None:
        """The vehicle that is on the screen alone; None at a walk around a real one."""
        if not (self.practices and self.walk_id):
            return None
        if self._practiced[0] != self.walk_id:
            self._practiced = (
                self.walk_id,
                practice_vehicle_of(self.parts.open_walks.walk(self.walk_id), self.parts.library),
            )
        return self._practiced[1]

    def walk_route(self, walk_id: str, screen: str = "walk") -> str:
        """Give the address of a walk, or of its record; in practice there is no record."""
        return f"{PRACTICE}/walk/{walk_id}" if self.practices else f"/{screen}/{walk_id}"
