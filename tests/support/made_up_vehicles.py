"""What several test modules on vehicles share: what is known, and vehicles made up at random.

Vehicles, plates and places are invented; nothing here is a trade fact.
"""

from __future__ import annotations

from datetime import date
from typing import get_args

from hypothesis import strategies as st

from walkaround.disk import locations
from walkaround.library.load import load_library, reference_of
from walkaround.vehicle.model import (
    KINDS,
    Axle,
    Brakes,
    BrakeSystem,
    Electrical,
    LampWiring,
    Vehicle,
)

TODAY = date(2026, 11, 25)
LIBRARY = load_library(locations.shipped(), today=TODAY)
SHIPPED = {vehicle.id: vehicle for vehicle in LIBRARY.vehicles}
SEMITRAILER = SHIPPED["sandbag_semitrailer_7"]
BLACKOUT_TRAILER = SHIPPED["pump_trailer_3"]
REFERENCE = reference_of(LIBRARY.checklists, LIBRARY.connectors, TODAY)

_ids = st.from_regex(r"[a-z0-9_]+", fullmatch=True)
_positive = st.floats(min_value=0, exclude_min=True, allow_infinity=False, allow_nan=False)
_axles = st.builds(
    Axle,
    actuator=st.sampled_from(["clamp", "bolt", "roto", "dd3", "wedge", "other"]),
    type=st.text(),
    long_stroke=st.booleans(),
    rated_stroke_in=st.none() | _positive,
    spring=st.booleans(),
    slack=st.sampled_from([None, "automatic", "manual"]),
    foundation=st.sampled_from(["drum", "disc"]),
    lift=st.booleans(),
)
_brakes = st.builds(
    Brakes,
    system=st.sampled_from(get_args(BrakeSystem)),
    reservoir_l=st.lists(_positive, max_size=3).map(tuple),
    axles=st.lists(_axles, max_size=3).map(tuple),
    abs=st.none() | st.booleans(),
)
_electrical = st.builds(
    Electrical,
    volts=st.sampled_from([12, 24]),
    connector=_ids,
    second_connector=st.just("") | _ids,
    stop_turn=st.sampled_from(["separate", "combined"]),
    blackout=st.booleans(),
    led=st.booleans(),
    bulbs=st.dictionaries(_ids, st.text(), max_size=3),
    lamps=st.lists(st.builds(LampWiring, id=_ids, circuit=_ids, cluster=_ids), max_size=2).map(
        tuple
    ),
)
vehicles = st.builds(
    Vehicle,
    id=_ids,
    kind=st.sampled_from(KINDS),
    made=st.dates(),
    width_mm=_positive,
    length_mm=_positive,
    gvwr_kg=st.none() | _positive,
    rules=st.sampled_from(["us", "unece"]),
    cab_width_mm=st.none() | _positive,
    boat=st.booleans(),
    electrical=_electrical,
    brakes=_brakes,
    name=st.text(),
    plate=st.text(),
    vin=st.text(),
    notes=st.text(),
    damage=st.lists(st.text(), max_size=3).map(tuple),
)
"""Vehicles in every shape that a file can have, sensible or not."""
