"""Where air is lost: what is heard where, the likely causes, and what to do to find out."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.leaks.messages import end_named, place_named
from walkaround.leaks.study import AirStudy
from walkaround.leaks.trials import CHAMBER, HOSE_END, general_place, told_places
from walkaround.leaks.variants import NOTHING
from walkaround.plan.steps import Step
from walkaround.ui.kit.parts import caution, page_column, top_bar
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.walk.causes import cause_rows, next_rows, tried_rows
from walkaround.walk.evidence.air_heard import brakes_at, losing_steps
from walkaround.walk.state import Walk
from walkaround.words.language import capital


@screen
def leaks_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Show what was heard at the hold that lost too much, the likely leaks, and what to do next."""
    walk, words = view.walk, view.words
    step, findings = _held_step(walk), taps.cause_taps.leaks(walk)
    study = taps.cause_taps.air_study(walk) if findings else None
    following = findings.next.id if findings and findings.next else ""
    effect(view, taps.appear_anew, [following])
    here = step is not None and walk.here is not None and step.id == walk.here.id
    bar = top_bar(words, words("leaks-title"), back=view.opens("" if here else "defects"))
    if findings is None or study is None or step is None:
        return page_column(bar, [label(words("leaks-none"))])
    listening = following == f"listen:{brakes_at(step)}"
    # The places to tap are that thing already.
    rest = [] if listening else next_rows(view, taps, findings)
    body = [
        caution(words("leaks-safe"), SMALL),
        *_heard_rows(view, taps, step, study),
        *cause_rows(view, findings),
        *rest,
        *tried_rows(view, taps, findings),
    ]
    return page_column(bar, body)


def _held_step(walk: Walk) -> Step | None:
    """Return the step whose hold it is about: the one asked, else the last that lost too much."""
    steps = losing_steps(walk)
    asked_steps = [step for step in steps if walk.here and step.id == walk.here.id]
    return next(iter([*asked_steps, *reversed(steps)]), None)


def _heard_rows(view: View, taps: WalkTaps, step: Step, study: AirStudy) -> Sequence[ft.Control]:
    """Show a chip for each place; a chamber or its hose asks for the wheel."""
    words, places_heard = view.words, view.walk.heard.get(step.id, ())
    general_heard = {general_place(place) for place in places_heard}

    def place_tap(places: Sequence[str]) -> Tap:
        return tapped(taps.cause_taps.record_heard, step.id, places)

    def toggled(place: str) -> Tap:
        other_places = [
            each
            for each in places_heard
            if NOTHING not in (each, place) and general_place(each) != place
        ]
        return place_tap(other_places if place in general_heard else [*other_places, place])

    chips = [
        chip(
            words,
            capital(words.text(place_named(place))),
            toggled(place),
            key=f"heard_{place}",
            on=place in general_heard,
        )
        for place in told_places(study.variants, brakes_at(step))
    ]
    rows: list[ft.Control] = [heading(words(f"leaks-hear-{brakes_at(step)}"), BODY), grid(chips, 2)]
    for group in (CHAMBER, HOSE_END):
        if group not in general_heard:
            continue
        rest = [place for place in places_heard if general_place(place) != group]
        ends = [
            chip(
                words,
                capital(words.text(end_named(place))),
                place_tap([*rest, group if place in places_heard else place]),
                key=f"heard_{place}",
                on=place in places_heard,
            )
            for place in study.variants.places
            if place != group and general_place(place) == group
        ]
        question = words("leaks-which-chamber" if group == CHAMBER else "leaks-which-hose")
        rows += [label(question, bold=True), grid(ends, 2)]
    return rows
