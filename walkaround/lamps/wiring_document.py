"""How a vehicle is wired, as one document: pins, circuits, grounds, filaments."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from walkaround.lamps.bulbs import Bulb, bulb_in, filaments_of
from walkaround.lamps.connector import Pin
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.vehicle.model import POWER_UNITS, Vehicle

USUAL = "usual"
_NAMED = "named"


def wiring_document(
    vehicle: Vehicle, lamps: Sequence[Lamp], wiring: Wiring, bulbs: Sequence[Bulb]
) -> dict[str, Any]:
    """Tell the pins of the vehicle's connector, its circuits, ground clusters and filaments.

    A circuit's `pin` joins several by +, and is None where the circuit reaches no connector, as in
    a power unit, whose connector is the rear socket. A filament's `fitted` is "named" where the
    vehicle's file says what burns there, else "usual": its watts are those of the bulb or LED that
    such a lamp usually has.
    """
    connector = wiring.connector
    return {
        "vehicle": vehicle.id,
        "volts": wiring.volts,
        "connector": connector.id,
        "connector_title": connector.title,
        "connector_rating": connector.rating,
        "connector_feeds_lamps": vehicle.kind not in POWER_UNITS,
        "pins": [_pin(pin) for pin in connector.pins],
        "circuits": [_circuit(circuit) for circuit in wiring.circuits],
        "without_lamps": [_circuit(circuit) for circuit in wiring.unused],
        "clusters": list(dict.fromkeys(wiring.cluster_of[lamp.id] for lamp in lamps)),
        "filaments": _filaments(vehicle, lamps, wiring, bulbs),
    }


def _pin(pin: Pin) -> dict[str, Any]:
    return {
        "pin": pin.pin,
        "function": pin.function,
        "colour": pin.colour,
        "gauge": pin.gauge,
        "doubt": pin.doubt,
        "provenance": "read" if pin.p == "r" else "memory",
    }


def _circuit(circuit: Circuit) -> dict[str, Any]:
    return {
        "id": circuit.id,
        "name": str(circuit.name),
        "pin": "+".join(circuit.pins) or None,
        "flashes": circuit.flashes,
        "function": str(circuit.function),
        "doubt": str(circuit.why_doubtful),
        "source": circuit.source,
        "provenance": circuit.provenance,
    }


def _filaments(
    vehicle: Vehicle, lamps: Sequence[Lamp], wiring: Wiring, bulbs: Sequence[Bulb]
) -> list[dict[str, Any]]:
    # Of the lamps that share a filament the first tells what burns there.
    lamp_at = {(lamp.housing, wiring.circuit_of[lamp.id]): lamp for lamp in reversed(lamps)}
    filaments = []
    for filament in filaments_of(vehicle, lamps, wiring, bulbs):
        lamp = lamp_at[filament.housing, filament.circuit]
        bulb = bulb_in(lamp, vehicle, bulbs)
        bulb_keys = {lamp.id, lamp.kind} & vehicle.electrical.bulbs.keys()
        filaments.append(
            {
                "housing": filament.housing,
                "circuit": filament.circuit,
                "cluster": filament.cluster,
                "watts": filament.watts,
                "volts": filament.volts,
                "led": filament.led,
                "bulb": filament.trade_number,
                "fitted": _NAMED if bulb_keys else USUAL,
                "source": bulb.source,
                "provenance": bulb.provenance,
            }
        )
    return filaments
