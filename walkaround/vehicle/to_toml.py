"""A vehicle as the text of the file that describes it; read again, it is the same vehicle."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomli_w

from walkaround.vehicle.model import Vehicle

# Larger whole numbers stay as they are: what reads the file takes them for a slip of the pen.
_WHOLE_BELOW = 1e15


def vehicle_toml(vehicle: Vehicle) -> str:
    """Write the vehicle file: every key that says something, in the order people write them."""
    return tomli_w.dumps(_table(vehicle.model_dump(exclude_defaults=True, exclude_none=True)))


def _table(values: Mapping[str, Any]) -> dict[str, Any]:
    return {key: _written(value) for key, value in values.items()}


def _written(value: Any) -> Any:
    """Write a value as a person would: 2591, not 2591.0."""
    if isinstance(value, Mapping):
        return _table(value)
    if isinstance(value, list | tuple):
        return [_written(each) for each in value]
    if isinstance(value, float) and value.is_integer() and value < _WHOLE_BELOW:
        return int(value)
    return value
