"""The figures of causes: each is used, and wires are as copper of their diameter is."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from scipy.constants import kilo, milli

import walkaround
from walkaround.causes.figures import LAMP_LOOKS
from walkaround.library.standard_tables import standard_tables

FIGURES = standard_tables().figures


def test_every_figure_is_used() -> None:
    folder = Path(walkaround.__file__).parent / "causes"
    text = "\n".join(path.read_text(encoding="utf-8") for path in folder.glob("*.py"))
    used = re.findall(r'f?"([a-z_]+(?:\{[^"]*)?)"', text)
    starts = {name.partition("{")[0] for name in used if "{" in name or name.endswith("_")}
    unused = [
        id_ for id_ in FIGURES if id_ not in used and not id_.startswith(tuple(starts - {""}))
    ]
    assert unused == []


@pytest.mark.parametrize("gauge", [8, 10, 12, 14, 16])
def test_the_resistance_of_a_wire_is_that_of_copper_of_its_diameter(gauge: int) -> None:
    """ASTM B258: diameter 0.127 mm x 92^((36 - n)/39); IEC 60028: 1.7241e-8 ohm m at 20 C."""
    diameter_m = 0.127 * milli * 92 ** ((36 - gauge) / 39)
    ohms_per_km = 1.7241e-8 * kilo / (math.pi / 4 * diameter_m**2)
    assert FIGURES[f"awg_{gauge}"] == pytest.approx(ohms_per_km, rel=0.002)


def test_the_right_word_fits_best_and_every_look_has_one() -> None:
    for look in LAMP_LOOKS:
        assert FIGURES.fits(look, look) == 1
        assert all(FIGURES.fits(look, other) < 1 for other in LAMP_LOOKS if other != look)
