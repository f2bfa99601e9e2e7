"""What the rules say of brakes: pushrod strokes, chambers, linings, and what is not checked here.

Limits come from tables that are read elsewhere and handed in. From outside only `stroke_limit_in`
is needed, which reads the table that comes with the app.
"""

from __future__ import annotations


def stroke_limit_in(
    actuator: str,
    type_: str | int,
    long_stroke: bool = False,
    rated_stroke_in: float | None = None,
) -> float:
    """Return the greatest stroke in inches that passes; see `library.stroke_lookup`."""
    # Only then: the table is read from disk, which the rest of this package never does.
    from walkaround.library.stroke_lookup import stroke_limit_in

    return stroke_limit_in(actuator, type_, long_stroke, rated_stroke_in)
