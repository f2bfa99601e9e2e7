"""A vehicle in words: sizes in both units, class, lamps and wiring, and what is wrong with it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from walkaround.base.errors import Problem
from walkaround.garage.edit import MIXED, Known, options, value_of, values_of
from walkaround.garage.fields import Day, Field, Measure, Pick, PickConnector, Several, Ticks
from walkaround.lamps.names import pins_named
from walkaround.lamps.required import Lamp
from walkaround.lamps.wiring import Circuit, Connector, Wiring
from walkaround.vehicle.model import Vehicle, VehicleClass, has_abs, vehicle_class
from walkaround.vehicle.vin import vin_years

_MM_IN_INCH = 25.4
_KG_IN_POUND = 0.45359237
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
DIFFERS = "Differs from axle to axle"

# 49 CFR 393.11 Table 1, column heads (from memory).
_CLASSES: Mapping[VehicleClass, str] = {
    "A": "small truck or bus, narrower than 80 in",
    "B": "large truck or bus, 80 in wide or more",
    "C": "truck tractor",
    "D": "large semitrailer or full trailer, 80 in wide or more",
    "E": "converter dolly",
    "F": "small semitrailer or full trailer, narrower than 80 in",
    "G": "pole trailer",
    "H": "load that reaches over the vehicle",
}


def length_words(mm: float) -> str:
    """A length in metres, and in feet and inches: "13.72 m (45 ft 0 in)"."""
    feet, inches = divmod(round(mm / _MM_IN_INCH), 12)
    return f"{mm / 1000:.2f} m ({feet} ft {inches} in)"


def mass_words(kg: float) -> str:
    """A mass in kilograms, and in pounds to the nearest ten: "30,000 kg (66,140 lb)"."""
    return f"{kg:,.0f} kg ({round(kg / _KG_IN_POUND, -1):,.0f} lb)"


def size_words(field: Measure, value: float | None) -> str:
    """A size of this field, in both units."""
    if value is None:
        return field.unknown
    return mass_words(value) if field.key.endswith("_kg") else length_words(value)


def month_words(day: date) -> str:
    """A month of a year: "May 2014"."""
    return f"{MONTHS[day.month - 1]} {day.year}"


def said(field: Field, vehicle: Vehicle, known: Known) -> str:
    """What the vehicle says for a field, as one line."""
    value: Any = value_of(vehicle, field.key) if values_of(vehicle, field.key) else None
    if value is MIXED and not isinstance(field, Ticks):
        return DIFFERS
    match field:
        case Pick() | PickConnector():
            every = field.options if isinstance(field, Pick) else options(field, vehicle, known)
            return next((option.word for option in every if option.value == value), str(value))
        case Measure():
            return size_words(field, value)
        case Day():
            return month_words(value)
        case Several():
            return _and([f"{each:g} {field.unit}" for each in value]) or "None told"
        case Ticks():
            ticked = [at for at, on in enumerate(values_of(vehicle, field.key), 1) if on]
            return _and([str(at) for at in ticked]) or "None"
    return str(value)


def sentence(field: Field, problem: Problem, known: Known) -> str:
    """What is wrong with a field, to stand beside it: with words where a file has ids."""
    what = str(problem.what)
    if what.split(" ")[0] in ("is", "has", "feeds", "says", "stands", "names"):
        what = f"{field.title} {what}"
    text = f"{what[:1].upper()}{what[1:]}; {problem.mend}."
    for id_, plug in known.connectors.items():
        text = text.replace(f"{id_} ", f"{plug.title} ").replace(f"{id_},", f"{plug.title},")
    return text


def class_words(vehicle: Vehicle) -> str:
    """Which lamps the rules ask of it, and by what."""
    if vehicle.rules != "us":
        return "Lamps by UN Regulation No. 48"
    class_ = vehicle_class(vehicle)
    return f"Lamps by 49 CFR 393.11, class {class_}: {_CLASSES[class_]}"


def year_words(vin: str) -> str:
    """The model years that a VIN can mean; it cannot tell which of them."""
    years = vin_years(vin)
    return f"Model year by the VIN: {' or '.join(map(str, years))}." if years else ""


def lamp_counts(lamps: Sequence[Lamp]) -> list[str]:
    """How many lamps there are of each kind: "2 stop", "3 identification"."""
    counts = Counter(lamp.kind for lamp in lamps)
    return [f"{count} {_kind(kind)}" for kind, count in counts.items()]


def wiring_lines(wiring: Wiring, lamps: Sequence[Lamp]) -> list[str]:
    """What each circuit lights, one line a circuit, and the contacts to measure first."""
    return [f"{_fed(circuit)}: {_lit(circuit, wiring, lamps)}" for circuit in wiring.circuits]


def plug_words(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> str:
    """Voltage, connector, and how stop and turn are wired."""
    electrical = vehicle.electrical
    names = (electrical.connector, electrical.second_connector)
    plugs = [connectors[name].title for name in names if name in connectors]
    light = "LEDs" if electrical.led else "bulbs"
    together = f"stop and turn {electrical.stop_turn}"
    return f"{electrical.volts} V, {_and(plugs)}; {together}; {light}"


def brake_words(vehicle: Vehicle) -> str:
    """The brake system, its axles, and whether ABS must be there."""
    brakes = vehicle.brakes
    count = len(brakes.axles)
    axles = "1 axle" if count == 1 else f"{count} axles"
    if brakes.system == "none":
        return f"No brakes, {axles}"
    springs = sum(axle.spring for axle in brakes.axles)
    parts = [f"{brakes.system.replace('_', ' ').capitalize()} brakes", axles]
    if brakes.system == "air":
        parts.append(f"spring brakes on {springs}" if springs else "no spring brakes")
    parts.append("ABS" if has_abs(vehicle) else "no ABS required")
    return ", ".join(parts)


def about(vehicle: Vehicle) -> str:
    """The vehicle in one line, for lists."""
    volts, length_m = vehicle.electrical.volts, vehicle.length_mm / 1000
    plate = f", {vehicle.plate}" if vehicle.plate else ""
    return f"{vehicle.kind.capitalize()}, {volts} V, {length_m:.1f} m long{plate}"


def _fed(circuit: Circuit) -> str:
    name = str(circuit.name)
    name = f"{name[:1].upper()}{name[1:]}"
    first = ", measure first" if circuit.meter_first else ""
    return f"{name} ({pins_named(circuit.pins)}{first})" if circuit.pins else name


def _lit(circuit: Circuit, wiring: Wiring, lamps: Sequence[Lamp]) -> str:
    return ", ".join(
        lamp_counts([lamp for lamp in lamps if wiring.circuit_of[lamp.id] == circuit.id])
    )


def _kind(kind: str) -> str:
    return {"abs": "ABS"}.get(kind, kind.replace("_", " "))


def _and(names: Sequence[Any]) -> str:
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
