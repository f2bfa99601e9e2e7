"""What is likely wrong with the lamps, and the next thing to do to find out."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import get_args

import flet as ft

from walkaround.causes.appearance import Condition
from walkaround.diagnosis.findings import Findings, ToldCause, percent_likely
from walkaround.report.findings import likely_lines
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.keyboard import Offer
from walkaround.ui.page.step_keys import use_offers
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Walk
from walkaround.words.language import capital

MOST_ALIKE = 3
_FEW = 4
"""Up to this many outcomes have a wide button each; more stand side by side."""


@screen
def causes_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Show the likeliest causes, what to do next, and what came out of it."""
    words = view.words
    erring, set_erring = use_unfinished(view.unfinished, "erring", taps.cause_taps.erring)
    taps.cause_taps.erring = erring
    findings = taps.cause_taps.causes(view.walk)
    bar = top_bar(words, words("causes-title"), back=view.opens("defects"))
    # Another thing to do brings other outcomes under the thumb.
    effect(view, taps.appear_anew, [findings.next.id if findings and findings.next else ""])
    if findings is None:
        return page_column(bar, [label(words("causes-none"))])

    def turned(what: Condition) -> Tap:
        """Flet hands its event to whatever takes an argument, so that the word is not one."""

        def tap() -> None:
            set_erring(lambda now: now ^ {what})

        return tap

    chips = [
        chip(
            words,
            words(f"causes-{what.replace('_', '-')}"),
            turned(what),
            key=f"erring_{what}",
            on=what in erring,
        )
        for what in get_args(Condition)
    ]
    body = [
        *cause_rows(view, findings),
        caution(words("causes-safe"), SMALL),
        *next_rows(view, taps, findings),
        *tried_rows(view, taps, findings),
        label(words("causes-erring"), QUIET, SMALL),
        grid(chips, 3),
    ]
    return page_column(bar, body)


@screen
def more_look_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Ask, after the last look at the lamps, for one more that would split the list of causes."""
    words, trial = view.words, taps.cause_taps.more_look(view.walk)

    async def go_on() -> None:
        view.open("")
        taps.appear()
        await taps.speak()

    async def seen(outcome: str) -> None:
        if trial and await taps.cause_taps.record_trial(trial.id, outcome):
            await go_on()

    outcomes = trial.outcomes if trial else ()
    offers = [
        Offer(capital(words.text(outcome_text)), f"outcome_{id_}", partial(seen, id_))
        for id_, outcome_text in outcomes
    ]
    offers.append(Offer(words("causes-more-skip"), "skip", go_on))
    pointed = use_offers(view, offers, go_on)
    buttons = [
        wide_button(offer.word, offer.take, key=offer.key, on=offer.key == pointed)
        for offer in offers
    ]
    body = [heading(words.text(trial.say))] if trial else []
    body.append(label(words("causes-more-why")))
    bar = top_bar(words, words("causes-more-title"), back=go_on)
    return page_column(bar, body, buttons)


def likely_cards(view: View, taps: WalkTaps, walk: Walk) -> list[ft.Control]:
    """Tell what is likely wrong where something is open, what was tried, and the way to go on.

    In a closed record they are only read.
    """
    words = view.words
    panels = [("lamps", "causes", taps.cause_taps.causes(walk), ft.Icons.TROUBLESHOOT)]
    panels += [("air", "leaks", taps.cause_taps.leaks(walk), ft.Icons.HEARING)]
    cards: list[ft.Control] = []
    for where, panel, findings, icon in panels:
        if findings is None:
            continue
        rows: list[ft.Control] = [label(words(f"causes-of-{where}"), bold=True)]
        rows += [label(line) for line in likely_lines(findings, words)]
        if walk.phase != "finished":
            rows.append(
                wide_button(words(f"{panel}-title"), view.opens(panel), key=panel, icon=icon)
            )
        cards.append(card(ft.Column(rows, spacing=6), key=f"likely_{where}"))
    return cards


def cause_rows(view: View, findings: Findings) -> Sequence[ft.Control]:
    """Show a card for each likely cause of what was found, the likeliest first."""
    if not findings.likely:
        return [label(view.words("causes-unexplained"), bold=True)]
    return [_cause(view, each, part) for each, part in findings.likely]


def _cause(view: View, cause: ToldCause, part: float) -> ft.Control:
    alike = cause.same_look_names[:MOST_ALIKE]
    id_ = "causes-share-alike" if alike else "causes-share"
    share = view.words(id_, percent=percent_likely(part), faults=alike)
    lines = [label(view.words.text(cause.why), bold=True), label(share, QUIET, SMALL)]
    return card(ft.Column(list[ft.Control](lines), spacing=4))


def next_rows(view: View, taps: WalkTaps, findings: Findings) -> Sequence[ft.Control]:
    """Show the thing that narrows the list most, and a tap for each thing that may come of it."""
    words, following = view.words, findings.next
    if following is None:
        # What confirms the likeliest, though it narrows nothing.
        confirms = [label(words.text(cause.next)) for cause, _ in findings.likely[:1]]
        return confirms or [label(words("causes-nothing-next"))]

    def outcome_tap(id_: str) -> Tap:
        return tapped(taps.cause_taps.record_trial, following.id, id_)

    outcomes = [
        (id_, capital(words.text(outcome_said))) for id_, outcome_said in following.outcomes
    ]
    few = len(outcomes) <= _FEW
    buttons = [
        wide_button(outcome_said, outcome_tap(id_), key=f"outcome_{id_}")
        if few
        else chip(words, outcome_said, outcome_tap(id_), key=f"outcome_{id_}")
        for id_, outcome_said in outcomes
    ]
    return [
        heading(words("causes-next"), BODY),
        label(words.text(following.say), bold=True),
        *(buttons if few else [grid(buttons, 2)]),
    ]


def tried_rows(view: View, taps: WalkTaps, findings: Findings) -> Sequence[ft.Control]:
    """Tell what was done so far, each of which can be taken back."""
    words = view.words
    rows: list[ft.Control] = []
    for tried in findings.tried:
        back = tapped(taps.cause_taps.take_back, tried.id)
        lines = [
            label(words.text(tried.say), QUIET, SMALL),
            label(capital(words.text(tried.outcome)), bold=True),
            wide_button(
                words("causes-take-back"), back, key=f"back_{tried.id}", icon=ft.Icons.UNDO
            ),
        ]
        rows.append(card(ft.Column(lines, spacing=6)))
    return [heading(words("causes-tried"), BODY), *rows] if rows else []
