"""The shop's figures for a lone trailer on its own air: asked once, and set again at will."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias, get_args

import flet as ft

from walkaround.rules.limits import ShopFigures
from walkaround.settings import Figure, figure_moved
from walkaround.ui.kit.buttons import icon_button, wide_button
from walkaround.ui.kit.parts import card, stretched
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, GOOD, QUIET, SMALL
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.words.leak import figure_quantity

# What is shown, and what changes it.
EditedFigures: TypeAlias = tuple[
    ShopFigures, Callable[[ShopFigures | Callable[[ShopFigures], ShopFigures]], None]
]


def as_shops_own(shop: ShopFigures) -> ShopFigures:
    """Return these figures marked as the shop's own, not as shipped."""
    return shop.model_copy(update={"own": True})


def use_figures(view: View) -> EditedFigures:
    """Keep the figures that are shown, those of the shop at first."""
    return use_unfinished(view.unfinished, "figures", view.settings.shop)


def figures_card(view: View, figures: EditedFigures) -> ft.Control:
    """Show each figure with a step down and up, and one tap that keeps them for the shop."""
    remembered = view.settings.shop
    shop, set_shop = figures

    async def keep() -> None:
        own = as_shops_own(shop)
        set_shop(own)
        await view.set(view.settings.model_copy(update={"shop": own}))

    rows: list[ft.Control] = [
        heading(view.words("shop-title"), BODY),
        label(view.words("shop-why"), QUIET, SMALL),
    ]
    for name in get_args(Figure):

        def moved(places: int, name: Figure = name) -> Tap:
            return lambda: set_shop(
                lambda now: figure_moved(now, name, places, view.settings.pressure)
            )

        rows.append(_row(view, shop, name, moved(-1), moved(1)))
    if remembered.own and shop == remembered:
        rows.append(label(view.words("shop-goes-by"), GOOD, bold=True, key="figures_kept"))
    else:
        word = view.words("shop-go-by")
        rows.append(wide_button(word, keep, key="figures", icon=ft.Icons.CHECK))
    return card(stretched(rows, 8), key="figures_card")


def _row(view: View, shop: ShopFigures, name: Figure, less: Tap, more: Tap) -> ft.Control:
    name_text, amount = (
        view.words(f"shop-{name.replace('_', '-')}"),
        figure_quantity(shop, name, view.words),
    )
    amount_label = label(view.words.quantity(amount), bold=True, key=f"figure_{name}")
    text = ft.Column([label(name_text, size=SMALL), amount_label], spacing=0)
    down = view.words("shop-less", what=name_text, figure=amount)
    up = view.words("shop-more", what=name_text, figure=amount)
    return ft.Row(
        [
            icon_button(ft.Icons.REMOVE_CIRCLE_OUTLINE, down, less, key=f"less_{name}"),
            ft.Container(text, expand=True),
            icon_button(ft.Icons.ADD_CIRCLE_OUTLINE, up, more, key=f"more_{name}"),
        ],
        spacing=4,
    )
