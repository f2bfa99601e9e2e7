"""A vehicle in words: sizes, class, lamps and wiring, and what is wrong with it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from walkaround.base.errors import Problem
from walkaround.base.message import Message, Quantity, Text, message
from walkaround.lamps.connector import Connector
from walkaround.lamps.names import pins_named
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.vehicle.model import Vehicle, has_abs, kind_words, vehicle_class
from walkaround.vehicle.vin import vin_years
from walkaround.vehicle_editor.checks import Reference
from walkaround.vehicle_editor.edit import MIXED, value_of, values_of
from walkaround.vehicle_editor.fields import (
    ConnectorField,
    Field,
    MonthField,
    OptionsField,
    SizeField,
    TicksField,
    VolumesField,
)


def length_words(mm: float) -> Quantity:
    """Write a length of a vehicle: "13.72 m", or "45 ft 0 in"."""
    return Quantity(value=mm / 1000, unit="m", decimals=2)


def mass_words(kg: float) -> Quantity:
    """Write a mass: "30,000 kg", or in pounds to the nearest ten, "66,140 lb"."""
    return Quantity(value=kg, unit="kg")


def volume_words(litres: float) -> Message:
    """Write a volume: "60 L", or in cubic inches to the nearest ten, "3,660 cu in"."""
    return message("vehicle-one-size", size=Quantity(value=litres, unit="l"))


def size_words(field: SizeField, value: float | None) -> Message:
    """Write a size of this field, or that it is not known."""
    if value is None:
        return message("choice-not-known")
    size = mass_words(value) if field.key.endswith("_kg") else length_words(value)
    return message("vehicle-one-size", size=size)


def month_words(day: date) -> Message:
    """Write a month of a year: "May 2014"."""
    return message("vehicle-month", month=day.month, year=str(day.year))


def facts(vehicle: Vehicle) -> tuple[Text, ...]:
    """Tell what a vehicle is and how large, its brakes and papers, and its notes: a line each."""
    lines: list[Text] = [
        message(
            "vehicle-kind-and-made", kind=kind_words(vehicle.kind), month=month_words(vehicle.made)
        ),
        message(
            "vehicle-size",
            length=length_words(vehicle.length_mm),
            width=length_words(vehicle.width_mm),
        ),
    ]
    if vehicle.gvwr_kg:
        lines.append(message("vehicle-gvwr", mass=mass_words(vehicle.gvwr_kg)))
    else:
        lines.append(message("vehicle-gvwr-not-known"))
    lines.append(brake_words(vehicle))
    if vehicle.plate:
        lines.append(message("vehicle-plate", plate=vehicle.plate))
    if vehicle.vin:
        lines.append(message("vehicle-vin", vin=vehicle.vin))
    if years := year_words(vehicle.vin):
        lines.append(years)
    return (*lines, vehicle.notes) if vehicle.notes else tuple(lines)


def field_text(field: Field, vehicle: Vehicle, reference: Reference) -> Text:
    """Tell what the vehicle says for a field, as one line."""
    value: Any = value_of(vehicle, field.key) if values_of(vehicle, field.key) else None
    if value is MIXED and not isinstance(field, TicksField):
        return message("field-differs")
    match field:
        case OptionsField():
            words = (option.word for option in field.options if option.value == value)
            return next(words, str(value))
        case ConnectorField():
            if plug := reference.connectors.get(value):
                return plug.name
            return message("choice-none") if field.optional and not value else str(value)
        case SizeField():
            return size_words(field, value)
        case MonthField():
            return month_words(value)
        case VolumesField():
            litres = tuple(map(volume_words, value))
            return message("field-several", values=litres) if litres else message("field-no-value")
        case TicksField():
            on = [at for at, ticked in enumerate(values_of(vehicle, field.key), 1) if ticked]
            return message("field-several", values=tuple(on)) if on else message("choice-none")
    return str(value)


def problem_sentence(field: Field, problem: Problem, reference: Reference) -> Message:
    """Tell what is wrong with a field, to stand beside it: with words where a file has ids."""
    what, mend = _with_names(problem.what, reference), problem.mend
    # What is wrong has the field as its subject, unless it is a sentence of its own.
    if isinstance(what, str) or what.id.startswith("trouble-"):
        return message("field-wrong", what=what, mend=mend)
    return message("field-is-wrong", field=field.title, what=what, mend=mend)


def class_words(vehicle: Vehicle) -> Message:
    """Tell which lamps the rules ask of it, and by what."""
    if vehicle.rules != "us":
        return message("vehicle-lamps-by-r48")
    class_ = vehicle_class(vehicle)
    meaning = message(f"vehicle-class-{class_.lower()}")
    return message("vehicle-lamps-by-393-11", class_=class_, meaning=meaning)


def year_words(vin: str) -> Message | None:
    """Write the model years that a VIN can mean, if any; it cannot tell which of them."""
    years = vin_years(vin)
    return message("vehicle-model-year", years=tuple(map(str, years))) if years else None


def lamp_counts(lamps: Sequence[Lamp]) -> tuple[Message, ...]:
    """Tell how many lamps there are of each kind: "2 stop", "3 identification"."""
    counts = Counter(lamp.kind for lamp in lamps)
    return tuple(
        message("vehicle-lamp-count", count=count, kind=_kind(kind))
        for kind, count in counts.items()
    )


def wiring_lines(wiring: Wiring, lamps: Sequence[Lamp]) -> list[Message]:
    """Tell what each circuit lights, one line a circuit, and the contacts to measure first."""
    return [
        message(
            "vehicle-circuit",
            circuit=circuit.name,
            fed=_fed(circuit),
            pins=pins_named(circuit.pins),
            lamps=lamp_counts([lamp for lamp in lamps if wiring.circuit_of[lamp.id] == circuit.id]),
        )
        for circuit in wiring.circuits
    ]


def plug_words(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> Message:
    """Tell voltage, connector, and how stop and turn are wired."""
    electrical = vehicle.electrical
    names = (electrical.connector, electrical.second_connector)
    return message(
        "vehicle-plug",
        volts=electrical.volts,
        plugs=tuple(connectors[name].name for name in names if name in connectors),
        wired=electrical.stop_turn,
        light="leds" if electrical.led else "bulbs",
    )


def brake_words(vehicle: Vehicle) -> Message:
    """Write the brake system, its axles, and whether ABS must be there."""
    brakes = vehicle.brakes
    return message(
        "vehicle-brakes",
        system=brakes.system,
        axles=len(brakes.axles),
        springs=sum(axle.spring for axle in brakes.axles),
        abs="yes" if has_abs(vehicle) else "no",
    )


def vehicle_summary(vehicle: Vehicle) -> Message:
    """Return the vehicle in one line, for lists."""
    return message(
        "vehicle-about",
        kind=kind_words(vehicle.kind),
        volts=vehicle.electrical.volts,
        long=Quantity(value=vehicle.length_mm / 1000, unit="m", decimals=1),
        plated="yes" if vehicle.plate else "no",
        plate=vehicle.plate,
    )


def _with_names(text: Text, reference: Reference) -> Text:
    """Return a message with the names of connectors in place of their ids."""
    if isinstance(text, str):
        return text
    names = {id_: plug.name for id_, plug in reference.connectors.items()}
    args = {
        name: names.get(value, value) if isinstance(value, str) else value
        for name, value in text.args.items()
    }
    return text.model_copy(update={"args": args})


def _fed(circuit: Circuit) -> str:
    if not circuit.pins:
        return "without-pins"
    return "doubtful-pins" if circuit.meter_first else "pins"


def _kind(kind: str) -> Message:
    return message(f"lamp-kind-{kind.replace('_', '-')}")
