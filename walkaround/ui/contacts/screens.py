"""Which screen of cables and sockets an address names."""

from __future__ import annotations

import flet as ft

from walkaround.ui.contacts.cable import cable_screen
from walkaround.ui.contacts.overview import contacts_screen
from walkaround.ui.contacts.socket import socket_screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import POWER_UNITS


def contact_screens(view: View, rest: str) -> ft.Control:
    """Draw `cable`, or the id of a tow vehicle; what was checked before for any other."""
    if rest == "cable":
        return cable_screen(view, key=view.route)
    vehicle = view.parts.own_vehicles.vehicle(rest)
    if vehicle is not None and vehicle.kind in POWER_UNITS:
        return socket_screen(view, vehicle, key=view.route)
    return contacts_screen(view, key="contacts")
