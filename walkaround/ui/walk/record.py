"""The record of a closed walk: what it found, what walks since say of that, its files."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import partial

import flet as ft

from walkaround.bootstrap import today
from walkaround.comparison.later_walks import Later, is_cured, left_open
from walkaround.plan.plan_walk import default_power, plan_walk, powers_for
from walkaround.plan.steps import Plan
from walkaround.records.walk_line import original_id
from walkaround.report.walk_texts import odometer_text
from walkaround.ui.double_check.pair import compare_buttons
from walkaround.ui.home.copies import copy_buttons
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, QUIET, SMALL
from walkaround.ui.kit.zones import in_rows, small_answer
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.walk.odometer import odometer_field
from walkaround.ui.walk.sign import signatures_card
from walkaround.ui.walk.summary import finding_rows, headline
from walkaround.vehicle.model import Vehicle
from walkaround.walk.events import Answered, Finished
from walkaround.walk.state import Walk


@screen
def record_screen(view: View, taps: WalkTaps) -> ft.Control:
    """Show a closed walk: its findings, its files, and the recheck of what is still open."""
    walk = view.walk
    assert walk.plan is not None

    later = view.parts.later(walk)

    async def recheck() -> None:
        await taps.begin(recheck_plan(view, walk, later))

    began, vehicle = walk.events[0].at.local_text(), walk.plan.vehicle
    names = tuple(dict.fromkeys(e.who for e in walk.events if isinstance(e, Answered)))
    ended = next((e.at.local_text() for e in walk.events if isinstance(e, Finished)), "")
    times = [view.words("record-begun", began=began, who=walk.events[0].who)]
    times += [view.words("record-ended", ended=ended)] if ended else []
    times += [view.words("record-answered-by", names=names)] if len(names) > 1 else []
    read = odometer_text(walk.odometer) if walk.odometer else ""
    marks = {"plate": vehicle.plate, "vin": vehicle.vin, "odometer": read}
    steps = view.words("steps-title")
    body: list[ft.Control] = [
        *headline(view, walk, later),
        *(label(time_text, QUIET, SMALL) for time_text in times),
        *(
            label(view.words(f"record-{name}", mark=mark), QUIET, SMALL)
            for name, mark in marks.items()
            if mark
        ),
        *(
            label(view.words.text(each), QUIET, SMALL)
            for each in view.parts.sharing.signer_messages(walk.id)
        ),
        *_copies(view, walk),
        *_linked_records(view, walk, later),
        *compare_buttons(view, walk),
        *finding_rows(view, taps, walk, later),
        *_known_at_start(view, vehicle),
        wide_button(steps, view.opens("steps"), key="steps", icon=ft.Icons.LIST),
        odometer_field(view, taps, key="odometer_of"),
        signatures_card(view, walk),
    ]
    if (left_open(walk, later) or walk.due) and walk.phase == "finished":
        word, icon = view.words("record-recheck"), ft.Icons.REPLAY
        body.append(wide_button(word, recheck, key="recheck", icon=icon))
    page, table = view.words("record-page"), view.words("record-table")
    everything = view.words("record-everything")
    across = 4 if view.device.flat else 2
    shared = view.words("record-share")
    beside = (page, shared, table, everything)
    share = small_answer(
        shared,
        ft.Icons.IOS_SHARE,
        key="share",
        # Where the browser has a sheet for files, assets/share.js hands it the page.
        url=f"/shared/{walk.id}.zip?sheet&language={view.words.language}",
        beside=beside,
        across=across,
    )
    body += _other_files(view, walk)
    file = partial(_file, view, walk, beside=beside, across=across)
    files = [file("pdf", page), share, file("csv", table), file("json", everything)]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=view.to("/records"))
    rows = in_rows(files, across)
    # On a page that is low, what was found comes before the files that tell of it.
    return page_column(bar, [*body, rows]) if view.device.low else page_column(bar, body, [rows])


def _known_at_start(view: View, vehicle: Vehicle) -> Sequence[ft.Control]:
    """Show what was noted of the vehicle, and known to be damaged, when the walk began."""
    known_texts = {
        "report-vehicle-note": vehicle.notes,
        "report-known-damage": "\n".join(vehicle.damage),
    }
    rows: list[ft.Control] = [
        row
        for title, text in known_texts.items()
        if text
        for row in (label(view.words(title), bold=True), label(text))
    ]
    return [card(ft.Column(rows, spacing=6), key="known_before")] if rows else []


def _other_files(view: View, walk: Walk) -> list[ft.Control]:
    """Show what fewer people ask for: the HTML page, the facts as JSON lines, the record file."""
    words, icon = view.words, ft.Icons.DOWNLOAD
    shop = button(
        words("record-for-a-shop"),
        key="file_zip",
        icon=icon,
        url=f"/shared/{walk.id}.zip?language={words.language}",
        expand=True,
        height=64,
    )
    kinds = {"html": words("record-page-html"), "ndjson": words("record-lines")}
    return [
        heading(words("record-other-files"), BODY),
        in_rows(
            [
                _file(view, walk, kind, word, beside=kinds.values(), across=2)
                for kind, word in kinds.items()
            ],
            2,
        ),
        ft.Row([shop]),
    ]


def _copies(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Show the other copies of this walk, where it went on differently somewhere."""
    overview = view.parts.store.overview()
    other_copies = copy_buttons(view, overview, walk.id, but=walk.id)
    copies_caution = caution(view.words("record-copies", count=len(other_copies)), key="copies")
    return [copies_caution, *other_copies] if other_copies else []


def _linked_records(view: View, walk: Walk, later: Later) -> list[ft.Control]:
    """Show the record whose defects this one rechecks, and those that recheck its own."""
    assert walk.plan is not None
    lines, words = view.parts.store.overview().lines, view.words
    own, rechecked = original_id(walk.id), original_id(walk.plan.recheck_of)
    former = [line for line in lines if rechecked and original_id(line.id) == rechecked]
    cured_in = {look.walk for looks in later.values() for look in looks if look.state == "cured"}
    since = [x for x in lines if original_id(x.recheck_of) == own or x.id in cured_in]
    return [
        ft.Row(
            [
                button(
                    words(text_id, day=f"{line.began.astimezone():%Y-%m-%d %H:%M}"),
                    view.to(f"/record/{line.id}"),
                    key=f"linked_{line.id}",
                    icon=ft.Icons.LINK,
                )
            ]
        )
        for text_id, record in (("record-recheck-of", former), ("record-rechecked-on", since))
        for line in record
    ]


def recheck_plan(view: View, walk: Walk, later: Later) -> Plan:
    """Plan a walk for what this one left open and none cured since, and for repairs there."""
    assert walk.plan is not None
    settings, vehicle, power = view.settings, walk.plan.vehicle, walk.plan.power
    now, rules = today(view.parts.clock), view.parts.library.rules
    # A source that this vehicle has no more, such as a box at a power unit.
    possible = power in powers_for(vehicle, rules.power_sources)
    return plan_walk(
        vehicle,
        rules,
        day=now,
        scope="recheck",
        power=power if possible else default_power(vehicle),
        together=walk.plan.together,
        air=walk.plan.air,
        towed=walk.plan.towed,
        shop=settings.shop,
        gauges=settings.gauges_at_zero(vehicle, walk.plan.air, settings.altitude_m, now),
        altitude_m=settings.altitude_m,
        only=[
            step.id
            for step in walk.steps
            if (walk.is_open(step.id) and not is_cured(later, step.id)) or step.id in walk.due
        ],
        recheck_of=original_id(walk.id),
        former=walk.plan,
    )


def _file(
    view: View, walk: Walk, kind: str, word: str, *, beside: Collection[str], across: int
) -> ft.Control:
    url, icon = f"/files/{walk.id}.{kind}?language={view.words.language}", ft.Icons.DOWNLOAD
    return small_answer(word, icon, key=f"file_{kind}", url=url, beside=beside, across=across)
