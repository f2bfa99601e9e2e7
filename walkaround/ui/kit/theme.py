"""What things look like: two palettes, light for sun and dark for night, and the text sizes.

Controls name a color by its role; the page's theme, light or dark, says which color that is.
Pictures are drawn outside the page and take the palette itself.

Every text pair contrasts at least 7:1 (WCAG 2.2, success criterion 1.4.6) and every line or
filled shape at least 3:1 with what lies around it (1.4.11). OK is blue-green and a defect is
vermilion, a pair that color-blind people can tell apart (after Okabe and Ito, 2008); a word and
a shape always say the same as the color.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType

import flet as ft

# Logical px. Read at arm's length, by people who may need glasses and have left them in the cab.
TITLE = 26
BODY = 20
SMALL = 16
ANSWER = 30
FIGURE = 44
"""Numbers that are read from afar: seconds left, psi."""

TOUCH = 120
"""Height of an answer zone, for a gloved thumb."""
LOW_TOUCH = 112
"""The same on a phone too low for more."""
LOW_PX = 700
"""A page lower than this is a small phone: words and places come before air around them."""
COLUMN_PX = 620
"""Words in a column wider than this are hard to follow."""
SMALL_TOUCH = 56
"""Height of a secondary button."""
GAP = 12
RADIUS = 16

FONT = "Roboto"
"""The one font that ships with the web client: no network is needed to show a word."""

QUIET = ft.Colors.ON_SURFACE_VARIANT
"""Text of second rank. Other text takes the ink of the surface it stands on."""
GOOD = ft.Colors.SECONDARY
"""Text and icons that say that all is well, on a page or a card."""
BAD = ft.Colors.ERROR
"""Text and icons that say what is wrong, on a page or a card."""
ACCENT = ft.Colors.PRIMARY
LINE = ft.Colors.OUTLINE
CARD = ft.Colors.SURFACE_CONTAINER


class Tone(Enum):
    """A kind of filled surface: its color, and that of what is written on it."""

    PLAIN = ft.Colors.PRIMARY_CONTAINER, ft.Colors.ON_PRIMARY_CONTAINER
    ACCENT = ft.Colors.PRIMARY, ft.Colors.ON_PRIMARY
    GOOD = ft.Colors.SECONDARY, ft.Colors.ON_SECONDARY
    BAD = ft.Colors.ERROR, ft.Colors.ON_ERROR
    CAUTION = ft.Colors.TERTIARY, ft.Colors.ON_TERTIARY

    @property
    def ground(self) -> ft.Colors:
        """The color of the surface."""
        return self.value[0]

    @property
    def ink(self) -> ft.Colors:
        """The color of words and icons on it."""
        return self.value[1]


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
        """The colors to draw for a color as rules word it: "red", "amber or red".

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


def flet_theme(colors: Palette) -> ft.Theme:
    """The same colors and sizes for everything that Flet draws by itself."""
    return ft.Theme(
        color_scheme=_scheme(colors),
        scaffold_bgcolor=colors.page,
        font_family=FONT,
        text_theme=_texts(colors),
        visual_density=ft.VisualDensity.COMFORTABLE,
        divider_color=colors.line,
        focus_color=ft.Colors.with_opacity(0.24, colors.accent),
    )


def _scheme(colors: Palette) -> ft.ColorScheme:
    return ft.ColorScheme(
        primary=colors.accent,
        on_primary=colors.on_accent,
        primary_container=colors.other,
        on_primary_container=colors.on_other,
        secondary=colors.ok,
        on_secondary=colors.on_ok,
        secondary_container=colors.other,
        on_secondary_container=colors.on_other,
        tertiary=colors.caution,
        on_tertiary=colors.on_caution,
        error=colors.bad,
        on_error=colors.on_bad,
        surface=colors.page,
        on_surface=colors.ink,
        on_surface_variant=colors.quiet_ink,
        surface_container_lowest=colors.card,
        surface_container_low=colors.card,
        surface_container=colors.card,
        surface_container_high=colors.card,
        surface_container_highest=colors.other,
        outline=colors.line,
        outline_variant=colors.line,
        inverse_surface=colors.ink,
        on_inverse_surface=colors.card,
        surface_tint=colors.card,
    )


def _texts(colors: Palette) -> ft.TextTheme:
    def style(size: int, weight: ft.FontWeight = ft.FontWeight.W_500) -> ft.TextStyle:
        return ft.TextStyle(size=size, weight=weight, color=colors.ink, font_family=FONT)

    return ft.TextTheme(
        body_small=style(SMALL),
        body_medium=style(BODY),
        body_large=style(BODY),
        label_large=style(BODY, ft.FontWeight.W_600),
        label_medium=style(SMALL, ft.FontWeight.W_600),
        label_small=style(SMALL, ft.FontWeight.W_600),
        title_medium=style(BODY, ft.FontWeight.W_700),
        title_large=style(TITLE, ft.FontWeight.W_700),
        headline_small=style(TITLE, ft.FontWeight.W_700),
    )
