"""What is likely wrong with the lamps, and the next thing to do to find out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

import flet as ft

from walkaround.causes.sights import Condition
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.unfinished import use_kept
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.weighing.findings import Findings, ToldCause

MOST_CAUSES = 3
MOST_ALIKE = 3
_LEAST_SHARE = 0.05
"""A cause with a smaller share is not told beside a likelier one."""


@screen
def causes_panel(view: View, taps: WalkTaps) -> ft.Control:
    """The likeliest causes, what to do next, and what came out of it."""
    words = view.words
    erring, set_erring = use_kept(view.unfinished, "erring", frozenset[Condition]())
    told = taps.cause_taps.causes(view.walk, erring)
    bar = top_bar(words, words("causes-title"), back=view.opens("defects"))
    # Another thing to do brings other outcomes under the thumb.
    effect(view, taps.fresh, [told.next.id if told and told.next else ""])
    if told is None:
        return page_column(bar, [label(words("causes-none"))])

    def turned(what: Condition) -> None:
        set_erring(lambda now: now ^ {what})

    chips = [
        chip(
            words,
            words(f"causes-{what.replace('_', '-')}"),
            lambda what=what: turned(what),
            key=f"erring_{what}",
            on=what in erring,
        )
        for what in get_args(Condition)
    ]
    body = [
        *cause_rows(view, told),
        *_next(view, taps, told),
        label(words("causes-erring"), QUIET, SMALL),
        grid(chips, 3),
    ]
    return page_column(bar, body)


def cause_rows(view: View, told: Findings) -> Sequence[ft.Control]:
    """A card for each likely cause of what was found, the likeliest first."""
    causes = explaining(told)
    if not causes:
        return [label(view.words("causes-unexplained"), bold=True)]
    of_all = sum(cause.share for cause in causes)
    likely = [each for each in causes if each.share >= _LEAST_SHARE * of_all]
    return [_cause(view, each, each.share / of_all) for each in likely[:MOST_CAUSES]]


def explaining(told: Findings) -> list[ToldCause]:
    """List the causes that explain something of what was found."""
    return [cause for cause in told.causes if cause.explains]


def _cause(view: View, cause: ToldCause, part: float) -> ft.Control:
    share = view.words("causes-share", percent=f"{100 * part:.0f}")
    lines: list[ft.Control] = [
        label(view.words.text(cause.why), bold=True),
        label(share, QUIET, SMALL),
    ]
    if alike := cause.same_look_names[:MOST_ALIKE]:
        lines.append(label(view.words("causes-same-look", faults=alike), size=SMALL))
    return card(ft.Column(lines, spacing=4))


def _next(view: View, taps: WalkTaps, told: Findings) -> Sequence[ft.Control]:
    """The thing that narrows the list most, and a tap for each thing that may come out of it."""
    if told.next is None:
        return [label(view.words("causes-nothing-next"))]
    outcomes = [
        wide_button(
            view.words.text(said),
            tapped(taps.cause_taps.tried, told.next.id, id_),
            key=f"outcome_{id_}",
        )
        for id_, said in told.next.outcomes
    ]
    return [
        heading(view.words("causes-next"), BODY),
        caution(view.words("causes-safe"), SMALL),
        label(view.words.text(told.next.say), bold=True),
        *outcomes,
    ]
