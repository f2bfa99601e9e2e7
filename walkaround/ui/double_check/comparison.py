"""Both walks of a double check side by side, how far they agree, and an instructor's name."""

from __future__ import annotations

import logging
from collections.abc import Iterator, Sequence

import flet as ft
from pydantic import ValidationError

from walkaround.base.errors import WalkaroundError
from walkaround.base.plaintext import one_line
from walkaround.comparison.agreement import Agreement
from walkaround.comparison.countersignature import Countersignature, seals, walker
from walkaround.comparison.differences import Difference, compare
from walkaround.plan.steps import Step
from walkaround.report.walk_texts import result_text
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, stretched, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.text_field import text_field
from walkaround.ui.kit.theme import BODY, GOOD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.walk.chambers import ends_of
from walkaround.walk.state import Walk
from walkaround.words.air_hold import all_readings_words
from walkaround.words.answers import answer_text, given_word, reason_text, seen_words
from walkaround.words.chambers import chambers_text
from walkaround.words.language import Words
from walkaround.words.measured_values import outcome_text
from walkaround.words.problems import error_text

log = logging.getLogger(__name__)
_MOST_NAME_CHARS = 40


@screen
def comparison_screen(view: View, second_id: str) -> ft.Control:
    """Tell what the two walkers answered otherwise, once both have closed their walks."""
    words, overview = view.words, view.parts.store.overview()
    bar = top_bar(words, words("double-title"), back=view.to("/records"))
    first_id = next((first for first, second in overview.pairs if second == second_id), "")
    if not first_id or second_id in overview.blind:
        return page_column(bar, [notice(words("double-not-yet"), key="not_yet")])
    try:
        first, second = map(view.parts.open_walks.walk, (first_id, second_id))
    except WalkaroundError as error:
        return page_column(bar, [notice(error_text(error, words))])
    assert first.plan is not None
    comparison = compare(first, second)
    count = len(comparison.differences)
    body: list[ft.Control] = [
        heading(first.plan.vehicle.name),
        label(words("double-walkers", first=walker(first), second=walker(second)), bold=True),
        heading(words("double-differences", count=count), BODY),
        *(_difference_card(words, first, second, each) for each in comparison.differences),
        *(label(text) for text in _agreed(comparison.agreement, words)),
        heading(words("double-records"), BODY),
        *(
            wide_button(
                words("double-record", who=walker(walk)),
                view.to(f"/record/{walk.id}"),
                key=f"record_{walk.id}",
                icon=ft.Icons.DESCRIPTION,
            )
            for walk in (first, second)
        ),
        heading(words("double-sign"), BODY),
        _Signing(view, first, second),
    ]
    return page_column(bar, body)


def _agreed(agreed: Agreement, words: Words) -> Iterator[str]:
    yield words("double-alike", alike=agreed.alike, things=agreed.things)
    if agreed.kappa is None:
        yield words("double-no-kappa")
    else:
        yield words("double-kappa", kappa=f"{agreed.kappa:.2f}")
        yield words("double-kappa-what")


def _difference_card(words: Words, first: Walk, second: Walk, difference: Difference) -> ft.Control:
    """Show one step, with what each walker said and read below his name."""
    sides: list[ft.Control] = [
        ft.Column(
            [
                label(walker(walk), QUIET, SMALL),
                *(label(line, size=SMALL) for line in answer_lines(walk, difference.step, words)),
            ],
            spacing=4,
            expand=True,
        )
        for walk in (first, second)
    ]
    names = {item.id: item.name for item in difference.step.items}
    lines: list[ft.Control] = [label(words.text(difference.step.title), bold=True)]
    if item_names := [names[item_id] for item_id in difference.things if item_id in names]:
        lines.append(label(words("double-of", things=tuple(item_names)), QUIET, SMALL))
    if difference.readings_differ and not difference.answers_differ:
        lines.append(label(words("double-read"), QUIET, SMALL))
    both = ft.Row(sides, spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)
    return card(stretched([*lines, both], 8), key=f"differs_{difference.step.id}")


def answer_lines(walk: Walk, step: Step, words: Words) -> Sequence[str]:
    """Tell what a walk has of a step: its answer, what was seen, measured, held and read off."""
    own_step = walk.plan.step(step.id) if walk.plan else None
    step = own_step or step
    answered, hold = walk.answers.get(step.id), walk.holds.get(step.id)
    lines = [given_word(step, answered, words) if answered else answer_text("not_checked", words)]
    if answered and answered.seen:
        lines.append(seen_words(step, answered.seen, words))
    if answered and answered.reason:
        lines.append(reason_text(answered.reason, words))
    if step.measure:
        lines.append(outcome_text(step.measure, walk.measured.get(step.id, {}), words))
    if hold:
        lines += [result_text(walk, hold, words), all_readings_words(hold, words)]
    if answered:
        lines += chambers_text(walk, ends_of(step), words)
    return [line for line in lines if line]


def stored_signatures(view: View) -> Iterator[Countersignature]:
    """Read who signed before; a row that a later version wrote is left out."""
    for row in view.parts.store.saved_checks("double"):
        try:
            yield Countersignature.model_validate(row)
        except ValidationError:
            log.warning("a signature under a double check cannot be read: %s", row)


@screen
def _Signing(view: View, first: Walk, second: Walk) -> ft.Control:
    """Show who has signed, and a line for one who walked neither."""
    words = view.words
    typed, set_typed = ft.use_state("")
    walkers = (walker(first), walker(second))

    async def sign() -> None:
        row = Countersignature(
            first=first.id,
            second=second.id,
            seals=seals(first, second),
            who=one_line(typed),
            at=view.parts.clock(),
        ).model_dump(mode="json")
        if await view.saved(lambda: view.parts.store.save_check("double", row)):
            set_typed("")

    signed = [
        label(words("double-signed", who=each.who, time=each.at.local_text()), GOOD, bold=True)
        for each in stored_signatures(view)
        if each.holds_for(first, second)
    ]
    name, most_chars = words("double-instructor"), _MOST_NAME_CHARS
    field = text_field(name, typed, most_chars, key="instructor", change=set_typed)
    rows: list[ft.Control] = [label(words("double-sign-what"), QUIET, SMALL), *signed, field]
    if one_line(typed).casefold() in {name.casefold() for name in walkers}:
        rows.append(notice(words("double-sign-other"), key="sign_other"))
    elif one_line(typed):
        word = words("double-sign-now")
        rows.append(ft.Row([button(word, sign, key="sign", icon=ft.Icons.DRAW, expand=True)]))
    return stretched(rows, 8)
