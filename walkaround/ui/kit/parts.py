"""What holds words and buttons together: cards, cautions, notices, the bar, the page's column."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.ui.kit.buttons import icon_button
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, CARD, GAP, GOOD, LINE, RADIUS, SMALL, Tone
from walkaround.words.language import Words

_BAR_PX = 26.0
"""The name in the bar is drawn no larger."""


def stretched(
    controls: Sequence[ft.Control],
    spacing: int = GAP,
    *,
    tight: bool = False,
    expand: bool = False,
    scroll: bool = False,
) -> ft.Column:
    """Put controls below each other, each as wide as the column."""
    return ft.Column(
        list(controls),
        spacing=spacing,
        tight=tight,
        expand=expand,
        scroll=ft.ScrollMode.AUTO if scroll else None,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def card(content: ft.Control, *, tap: Tap | None = None, key: str | None = None) -> ft.Control:
    """Frame something that belongs together."""
    return ft.Container(
        content,
        bgcolor=CARD,
        border=ft.Border.all(1, LINE),
        border_radius=RADIUS,
        padding=16,
        on_click=tap,
        ink=tap is not None,
        key=key,
    )


def caution(text: str, size: float = BODY, *, key: str | None = None) -> ft.Control:
    """Warn, beside the words of a step and never instead of them."""
    ink, top = Tone.CAUTION.ink, ft.CrossAxisAlignment.START
    icon = ft.Icon(ft.Icons.WARNING_ROUNDED, size=28, color=ink)
    words = ft.Column([label(text, ink, size, bold=True)], expand=True)
    return ft.Container(
        ft.Row([icon, words], spacing=10, vertical_alignment=top),
        bgcolor=Tone.CAUTION.ground,
        border_radius=RADIUS,
        padding=12,
        key=key,
    )


def notice(text: str, *, key: str = "notice") -> ft.Control:
    """Say one plain sentence about the app itself: no sound, not saved."""
    icon = ft.Icon(ft.Icons.INFO_OUTLINE, size=24, color=Tone.PLAIN.ink)
    words = ft.Column([label(text, Tone.PLAIN.ink, SMALL)], expand=True)
    return ft.Container(
        ft.Row([icon, words], spacing=8),
        bgcolor=Tone.PLAIN.ground,
        border=ft.Border.all(1, LINE),
        border_radius=RADIUS,
        padding=10,
        key=key,
    )


def share_bar(share: float, name: str | None = None) -> ft.Control:
    """Show how much of a walk is answered, 0 to 1; screen readers hear it under this name."""
    return ft.ProgressBar(
        value=share,
        color=GOOD,
        bgcolor=Tone.PLAIN.ground,
        bar_height=8,
        border_radius=4,
        semantics_label=name,
        semantics_value=share if name else None,
    )


def top_bar(
    words: Words,
    title: str,
    *,
    back: Tap | None = None,
    below: ft.Control | None = None,
    actions: Sequence[ft.Control] = (),
) -> ft.Control:
    """Make the bar on top: where you are, and the way back."""
    leading: ft.Control = ft.Container(width=0)
    if back:
        leading = icon_button(ft.Icons.ARROW_BACK, words("go-back"), back, key="back")
    title_label = label(title, size=fitting_size(BODY, _BAR_PX), bold=True, max_lines=1)
    middle = [title_label, *([below] if below else [])]
    return ft.Row(
        [leading, ft.Column(middle, spacing=4, tight=True, expand=True), *actions],
        spacing=4,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )


def page_halves(top: ft.Control, body: Sequence[ft.Control], under: ft.Control) -> ft.Control:
    """Make a screen of a phone on its side: the bar, what scrolls, beside it what stays."""
    scrolled = ft.Container(stretched(body, expand=True, scroll=True), expand=1)
    stays = ft.Container(under, expand=1, alignment=ft.Alignment.BOTTOM_CENTER)
    return stretched([top, ft.Row([scrolled, stays], expand=True, spacing=24)], expand=True)


def page_column(
    top: ft.Control, body: Sequence[ft.Control], bottom: Sequence[ft.Control] = ()
) -> ft.Control:
    """Make a screen: the bar, what scrolls, and what stays under the thumb."""
    return stretched([top, stretched(body, expand=True, scroll=True), *bottom], expand=True)
