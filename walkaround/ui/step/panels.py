"""What opens over a step: the question before a defect is taken back, and other answers."""

from __future__ import annotations

from typing import get_args

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.answers import may_be_left_out
from walkaround.walk.events import Reason
from walkaround.words.answers import reason_text
from walkaround.words.language import capital
from walkaround.words.measured_values import defect_words


@screen
def withdraw_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Ask before another answer takes an open defect back."""
    words, defect = view.words, view.walk.defects[step.id]
    body = [
        heading(words("withdraw-question")),
        label(capital(defect_words(view.walk, defect, words)), bold=True),
        label(words("withdraw-means")),
    ]
    keep = wide_button(words("withdraw-keep"), view.opens(""), key="keep", icon=ft.Icons.REPORT)
    if taps.take_back:
        word = words("withdraw-yes")
        body.append(wide_button(word, taps.take_back, key="withdraw", icon=ft.Icons.UNDO))
    bar = top_bar(words, words.text(step.title), back=view.opens(""))
    return page_column(bar, body, [keep])


@screen
def other_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Show the rarer answers: not checked and why, not fitted where nobody requires it."""

    def reason(code: Reason) -> ft.Control:
        tap = taps.answers(step.id, "not_checked", reason=code)
        return wide_button(reason_text(code, view.words), tap, key=f"reason_{code}")

    body = [heading(view.words("other-because")), *map(reason, get_args(Reason))]
    if may_be_left_out(step):
        word, absent = view.words("answer-not-fitted"), taps.answers(step.id, "not_fitted")
        body.append(heading(view.words("other-not-on-vehicle")))
        body.append(wide_button(word, absent, key="not_fitted", icon=ft.Icons.BLOCK))
    elif step.kind == "lamp":
        body.append(label(view.words("other-required"), QUIET, SMALL))
    return page_column(top_bar(view.words, view.words.text(step.title), back=view.opens("")), body)
