"""How far two colors contrast: W3C WCAG 2.2, "contrast ratio" and "relative luminance"."""

from __future__ import annotations

import numpy as np

TEXT = 7.0
"""Success criterion 1.4.6 Contrast (Enhanced), level AAA."""


def linear(colour: str) -> np.ndarray:
    """Linear RGB of #RRGGBB; WCAG 2.2 and IEC 61966-2-1 agree on this formula."""
    s = np.array([int(colour[at : at + 2], 16) for at in (1, 3, 5)]) / 255
    return np.where(s <= 0.04045, s / 12.92, ((s + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    low, high = sorted(float(linear(c) @ (0.2126, 0.7152, 0.0722)) for c in (one, other))
    return (high + 0.05) / (low + 0.05)
