"""The photos of a step, small; a tap on one shows it whole."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.theme import LINE, RADIUS
from walkaround.walk.state import Walk
from walkaround.words.language import Words

_SIDE_PX = 96


def photo_row(walk: Walk, step_id: str, words: Words) -> list[ft.Control]:
    """Show a step's photos side by side; nothing if it has none."""
    photos = walk.photos.get(step_id, ())
    small = [
        _small(f"/photos/{walk.id}/{photo}.jpg", words("photo-of-step", number=number))
        for number, photo in enumerate(photos, 1)
    ]
    row = ft.Row(small, wrap=True, spacing=8, run_spacing=8, key=f"photos_{step_id}")
    return [row] if small else []


def _small(address: str, name: str) -> ft.Control:
    picture = ft.Image(
        src=address,
        width=_SIDE_PX,
        height=_SIDE_PX,
        fit=ft.BoxFit.COVER,
        semantics_label=name,
        border_radius=RADIUS // 2,
    )
    return ft.Container(
        picture,
        border=ft.Border.all(1, LINE),
        border_radius=RADIUS // 2,
        url=ft.Url(address, target=ft.UrlTarget.BLANK),
        ink=True,
    )
