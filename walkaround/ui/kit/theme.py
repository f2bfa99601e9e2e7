"""What things look like: two palettes, light for sun and dark for night, and the text sizes.

Controls name a color by its role; the page's theme, light or dark, says which color that is.
Pictures are drawn outside the page and take the palette itself.
"""

from __future__ import annotations

from enum import Enum

import flet as ft

from walkaround.drawing.palette import Palette

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


def flet_theme(colors: Palette) -> ft.Theme:
    """Make a theme with the same colors and sizes for everything that Flet draws by itself."""
    scheme = ft.ColorScheme(
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

    def style(size: int, weight: ft.FontWeight = ft.FontWeight.W_500) -> ft.TextStyle:
        return ft.TextStyle(size=size, weight=weight, color=colors.ink, font_family=FONT)

    texts = ft.TextTheme(
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
    return ft.Theme(
        color_scheme=scheme,
        scaffold_bgcolor=colors.page,
        font_family=FONT,
        text_theme=texts,
        visual_density=ft.VisualDensity.COMFORTABLE,
        divider_color=colors.line,
        focus_color=ft.Colors.with_opacity(0.24, colors.accent),
    )
