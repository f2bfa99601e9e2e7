"""The two palettes, light for sun and dark for night: colors by what they are for.

Every text pair contrasts at least 7:1 (WCAG 2.2, success criterion 1.4.6) and every line or
filled shape at least 3:1 with what lies around it (1.4.11). OK is blue-green and a defect is
vermilion, a pair that color-blind people can tell apart (after Okabe and Ito, 2008); a word and
a shape always say the same as the color.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Palette:
    """Colors by what they are for, as #RRGGBB; `on_x` is the text on a surface of `x`.

    Attributes:
        page, card: the two surfaces that text stands on.
        ink, quiet_ink: text, and text of second rank, on either surface.
        line: borders and rules; `other` and `caution` surfaces need one around them.
        ok, bad, accent: filled zones; also good as text on either surface.
        body: the vehicle on its plan; ink and quiet_ink are good on it.
        lamps: lamp colors as drawn on the plan, by the word that rules use.
        on_lamp: the number on a lamp of any color.
    """

    dark: bool
    page: str
    card: str
    ink: str
    quiet_ink: str
    line: str
    ok: str
    on_ok: str
    bad: str
    on_bad: str
    other: str
    on_other: str
    accent: str
    on_accent: str
    caution: str
    on_caution: str
    body: str
    lamps: Mapping[str, str]
    on_lamp: str

    def lamp(self, color: str) -> tuple[str, ...]:
        """List the colors to draw for a color as rules word it: "red", "amber or red".

        Empty for what has no lamp color.
        """
        words = re.findall(r"[a-z]+", color.lower())
        return tuple(dict.fromkeys(self.lamps[word] for word in words if word in self.lamps))


# Lit lamps, bright in both palettes, so that one black number can be read on each of them.
_LAMPS = MappingProxyType(
    {
        "red": "#FF6340",
        "amber": "#FFB21A",
        "yellow": "#FFE45C",
        "white": "#FFFFFF",
        "blackout": "#9DB4D6",
        "dark": "#8F9DA4",
    }
)

LIGHT = Palette(
    dark=False,
    page="#EFF3F1",
    card="#FFFFFF",
    ink="#0D1B22",
    quiet_ink="#37474F",
    line="#62737B",
    ok="#00586B",
    on_ok="#FFFFFF",
    bad="#942A05",
    on_bad="#FFFFFF",
    other="#DDE7E8",
    on_other="#0D1B22",
    accent="#2B3F86",
    on_accent="#FFFFFF",
    caution="#FFCB45",
    on_caution="#1B1400",
    body="#E1E9E8",
    lamps=_LAMPS,
    on_lamp="#000000",
)

DARK = Palette(
    dark=True,
    page="#0A1115",
    card="#131E24",
    ink="#F1F5F3",
    quiet_ink="#BCC9CE",
    line="#78909B",
    ok="#62BBD1",
    on_ok="#07161B",
    bad="#FF9468",
    on_bad="#1E0900",
    other="#2A3B45",
    on_other="#F1F5F3",
    accent="#AEBBFF",
    on_accent="#0B1230",
    caution="#FFCB45",
    on_caution="#1B1400",
    body="#22313A",
    lamps=_LAMPS,
    on_lamp="#000000",
)
