"""What a choice changes: from a vehicle and one value to the next vehicle, and what follows.

A vehicle being made is a `Vehicle` all along; whatever nobody chose stays as it was.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date
from typing import Any, Final, TypeVar

from walkaround.base.errors import Problem
from walkaround.base.message import message
from walkaround.base.toml_model import Written
from walkaround.lamps.connector import Connector
from walkaround.vehicle.model import POWER_UNITS, Axle, Vehicle
from walkaround.vehicle_editor.checks import KINDS_ASKED, Reference, vehicle_problems
from walkaround.vehicle_editor.fields import (
    FIELDS,
    ConnectorField,
    Field,
    Option,
    OptionsField,
    Section,
    Unit,
)

_W = TypeVar("_W", bound=Written)

MIXED: Final = object()
"""What a key of all axles says when they differ."""

EARLIEST_YEAR = 1900
_EACH_AXLE = "brakes.axles.*."
# A stroke marked on one chamber says nothing of another.
_OTHER_CHAMBER = ("actuator", "type", "long_stroke")
_SAFE_DAY = 28
"""Every month has it."""


def value_of(vehicle: Vehicle, key: str) -> Any:
    """Read what a vehicle says under a key: a count for the axles, MIXED where they differ."""
    values = values_of(vehicle, key)
    return values[0] if len(set(values)) == 1 else MIXED


def values_of(vehicle: Vehicle, key: str) -> tuple[Any, ...]:
    """Read the same axle by axle for a key of all axles; one value for any other."""
    if key.startswith(_EACH_AXLE):
        name = key.removeprefix(_EACH_AXLE)
        return tuple(getattr(axle, name) for axle in vehicle.brakes.axles)
    value: Any = vehicle
    for name in key.split("."):
        value = getattr(value, name)
    return (len(value) if key == "brakes.axles" else value,)


def with_field(
    vehicle: Vehicle, key: str, value: Any, reference: Reference, axle: int | None = None
) -> Vehicle:
    """Change the value under this key, and what follows from it.

    Args:
        axle: which axle is meant, counted from 0; None means all of them.
    """
    if key.startswith(_EACH_AXLE):
        change = _axle_change(key.removeprefix(_EACH_AXLE), value)
        axles = enumerate(vehicle.brakes.axles)
        after = tuple(change(each) if axle in (None, at) else each for at, each in axles)
        return _with_value(vehicle, "brakes.axles", after)
    if key == "brakes.axles":
        return _with_value(vehicle, key, _with_axle_count(vehicle.brakes.axles, value))
    follow = {"kind": _without_other_kinds_facts, "electrical.connector": _with_connector}.get(key)
    after_it = _with_value(vehicle, key, value)
    return follow(after_it, reference) if follow else after_it


def fields_asked(vehicle: Vehicle, reference: Reference) -> dict[Section, list[Field]]:
    """List the fields to ask of this vehicle; those with one fitting answer are left out."""
    return {
        part: [
            field for field in fields if field.when(vehicle) and _open(field, vehicle, reference)
        ]
        for part, fields in FIELDS.items()
    }


def options(field: Field, vehicle: Vehicle, reference: Reference) -> tuple[Option, ...]:
    """List what can be chosen for a field; what would be wrong on this vehicle is left out."""
    match field:
        case OptionsField(narrowed=False):
            return field.options
        case OptionsField():
            every = field.options
        case ConnectorField():
            every = _connectors(field, reference)
        case _:
            return ()
    if field.key.startswith(_EACH_AXLE):
        # What is wrong with an axle does not hang on the lamps, which take longest to find.
        reference = replace(reference, checklists=())

    def fits(option: Option) -> bool:
        after = with_field(vehicle, field.key, option.value, reference)
        return not any(
            _about(problem, field) for problem in vehicle_problems(after, after.name, reference)
        )

    return tuple(option for option in every if fits(option))


def problems_beside(field: Field, problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Pick the problems that belong beside this field."""
    return tuple(problem for problem in problems if _about(problem, field))


def stepped_size(value: float, unit: Unit, grains: int) -> float:
    """Change a size by some grains, to a whole grain, in whole units of the file."""
    return max(
        float(round(unit.grain)), float(round((round(value / unit.grain) + grains) * unit.grain))
    )


def in_year(day: date, years: int, today: date) -> date:
    """Move a day by some years, between the earliest year there is and this one."""
    year = min(max(day.year + years, EARLIEST_YEAR), today.year)
    return date(year, day.month, min(day.day, _SAFE_DAY))


def in_month(day: date, month: int) -> date:
    """Move a day to another month of its year."""
    return date(day.year, month, min(day.day, _SAFE_DAY))


def _with_value(model: _W, key: str, value: Any) -> _W:
    head, _, rest = key.partition(".")
    return model.model_copy(
        update={head: _with_value(getattr(model, head), rest, value) if rest else value}
    )


def _axle_change(name: str, value: Any) -> Callable[[Axle], Axle]:
    def change(axle: Axle) -> Axle:
        other = name in _OTHER_CHAMBER and getattr(axle, name) != value
        stroke = {"rated_stroke_in": None} if other else {}
        return axle.model_copy(update={**stroke, name: value})

    return change


def _with_axle_count(axles: Sequence[Axle], count: int) -> tuple[Axle, ...]:
    """Add axles like the last one, or leave the last ones out."""
    like = axles[-1] if axles else Axle()
    return (*axles[:count], *[like] * (count - len(axles)))


def _without_other_kinds_facts(vehicle: Vehicle, _: Reference) -> Vehicle:
    """Drop what no rule asks of its kind."""
    unasked = [key for key, kinds in KINDS_ASKED.items() if vehicle.kind not in kinds]
    return vehicle.model_copy(update={key: Vehicle.model_fields[key].default for key in unasked})


def _with_connector(vehicle: Vehicle, reference: Reference) -> Vehicle:
    """Set the voltage of its connector, and wire lamps as its contacts allow."""
    plug = reference.connectors[vehicle.electrical.connector]
    vehicle = _with_value(vehicle, "electrical.volts", plug.nominal_volts)
    for key in ("electrical.stop_turn", "electrical.blackout"):
        field = next(field for field in FIELDS["lamps"] if field.key == key)
        fitting = [option.value for option in options(field, vehicle, reference)]
        # What a power unit is wired like does not follow from its rear socket.
        is_told = key == "electrical.blackout" or vehicle.kind in POWER_UNITS
        if fitting and not (is_told and value_of(vehicle, key) in fitting):
            vehicle = _with_value(vehicle, key, fitting[0])
    return vehicle


def _connectors(field: ConnectorField, reference: Reference) -> tuple[Option, ...]:
    def option(plug: Connector) -> Option:
        volts = (plug.nominal_volts, *plug.other_volts)
        description = message(
            "garage-connector",
            standard=plug.standard,
            volts=tuple(message("unit-v", n=each) for each in volts),
        )
        return Option(plug.id, plug.name, description)

    none = (Option("", message("choice-none")),) if field.optional else ()
    return (*none, *map(option, reference.connectors.values()))


def _open(field: Field, vehicle: Vehicle, reference: Reference) -> bool:
    if not isinstance(field, OptionsField) or not field.narrowed:
        return True
    fitting = [option.value for option in options(field, vehicle, reference)]
    return len(fitting) > 1 or value_of(vehicle, field.key) not in fitting


def _about(problem: Problem, field: Field) -> bool:
    key = re.sub(r"axles \d+", "axles.*", problem.key)
    return re.match(rf"{re.escape(field.key)}(?![^. ])", key) is not None
