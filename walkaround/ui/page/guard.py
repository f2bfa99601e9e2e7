"""A screen that fails to draw says so, instead of freezing the page for good.

An exception in a component's second drawing ends Flet's update loop without a word, one in an
effect ends the effect. With this guard the page shows one sentence and a way home, and the cause
goes to the log. What a tap raises ends in `View.say_failure`.
"""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable, Sequence
from functools import wraps
from typing import Concatenate, ParamSpec

import flet as ft

from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import TITLE
from walkaround.ui.page.view import View

log = logging.getLogger(__name__)
P = ParamSpec("P")


def screen(draw: Callable[Concatenate[View, P], ft.Control]) -> Callable[..., ft.Control]:
    """Make a component that cannot freeze the page; like every component it also takes a `key`."""

    @wraps(draw)
    def guarded(view: View, *args: P.args, **kwargs: P.kwargs) -> ft.Control:
        try:
            return draw(view, *args, **kwargs)
        except Exception:
            log.exception("%s could not be drawn", draw.__name__)
            return ft.Column(
                [
                    label(view.words("page-not-drawn"), size=TITLE),
                    label(view.words("page-not-drawn-why")),
                    ft.Button(view.words("page-to-start"), on_click=view.to("/"), key="home"),
                ],
                spacing=16,
            )

    return ft.component(guarded)


def effect(
    view: View, work: Callable[[], Awaitable[None]], dependencies: Sequence[object] = ()
) -> None:
    """Run work when its component is drawn first, and again when a dependency has changed.

    It ends when the component leaves the screen, and never without a word.
    """

    async def guarded() -> None:
        try:
            await work()
        except Exception:
            if not view.gone:
                log.exception("%s ended", work.__qualname__)
                view.say_failure()

    # The cleanup makes Flet end the work with its component.
    ft.use_effect(guarded, dependencies=dependencies, cleanup=lambda: None)
