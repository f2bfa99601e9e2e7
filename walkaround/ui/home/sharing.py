"""Sharing: every walk as a file for another shop, and the import of such a file."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from pathlib import Path

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.exchange.merge import Merged
from walkaround.exchange.record_file_reader import Signer
from walkaround.exchange.shop_key import LONGEST_SHOP_NAME, ShopKey, long_key
from walkaround.exchange.verify import Verified, signer_message
from walkaround.ui.home.copies import copy_buttons
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import card, notice, page_column, stretched, top_bar
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.text_field import text_field
from walkaround.ui.kit.theme import BAD, BODY, GOOD, QUIET, SMALL, Tone
from walkaround.ui.page.file_upload import file_button, use_chooser
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.words.problems import error_text

MOST_FAULTS_SHOWN = 5
TABLES = ("walks.csv", "facts.csv", "facts.ndjson")
"""One row a walk; one row a fact, for a spreadsheet and for programs."""
MOST_IMPORT_BYTES = 500_000_000
"""Of a record file that is imported here; the command line takes larger ones."""


@dataclass(frozen=True, slots=True)
class _ReceivedFile:
    """An uploaded file: its name, where it lies until it is imported, what is in it."""

    name: str
    path: Path
    seen: Verified


_NOTHING_CAME: _ReceivedFile | None = None


@screen
def sharing_screen(view: View) -> ft.Control:
    """Show this shop's name and key, export and import, and the shops whose keys are trusted."""
    top = top_bar(view.words, view.words("sharing-title"), back=view.to("/records"))
    try:
        key = view.parts.sharing.key()
    except WalkaroundError as error:
        return page_column(top, [notice(error_text(error, view.words))])
    icon, word = ft.Icons.DOWNLOAD, view.words("sharing-all")
    every = f"/shared/all.zip?language={view.words.language}"
    out = button(word, key="share_all", icon=icon, url=every, expand=True, height=64)
    other_shops = {
        each: name for each, name in view.parts.sharing.known_shops().items() if each != key.public
    }
    shop_rows = [
        label(view.words("sharing-known-shop", shop=name, key=long_key(each)), size=SMALL)
        for each, name in other_shops.items()
    ]
    body = [
        label(view.words("sharing-what"), QUIET, SMALL),
        ft.Row([out]),
        import_card(view),
        *(ft.Row([_table(view, name)]) for name in TABLES),
        heading(view.words("sharing-this-shop"), BODY),
        _name(view, key),
        label(view.words("sharing-key", key=long_key(key.public)), size=SMALL, key="own_key"),
        *([heading(view.words("sharing-known"), BODY), *shop_rows] if shop_rows else []),
    ]
    return page_column(top, body)


def _table(view: View, name: str) -> ft.Control:
    url = f"/tables/{name}?language={view.words.language}"
    key = name.replace(".", "-")
    word, icon = view.words(f"sharing-table-{key}"), ft.Icons.TABLE_CHART
    return button(word, key=f"table_{key}", icon=icon, url=url, expand=True, height=64)


def _name(view: View, key: ShopKey) -> ft.Control:
    async def save_name(name: str) -> None:
        if name != view.parts.sharing.key().shop:
            await view.saved(partial(view.parts.sharing.rename_shop, name))

    words, most_chars = view.words("sharing-name"), LONGEST_SHOP_NAME
    return text_field(words, key.shop, most_chars, key="shop_name", leave=save_name)


@screen
def import_card(view: View) -> ft.Control:
    """Show the button that asks for a record file; below it its content, then the outcome."""
    coming, set_coming = ft.use_state("")
    received, set_received = ft.use_state(_NOTHING_CAME)
    lying = ft.use_memo(list[Path], dependencies=[])
    merged, set_merged = ft.use_state(Merged())

    async def take_upload(name: str, data: bytes | None, to: Path | None) -> None:
        # Another file is chosen before the last was imported or dropped.
        for before in lying:
            view.parts.sharing.discard(before)
        lying[:] = [to] if to else []
        checked: list[Verified] = []
        if data is None or to is None:
            view.message = view.words("sharing-did-not-come", name=name)
        else:
            path = to
            await view.saved(lambda: checked.append(view.parts.sharing.verify(path)))
        set_coming("")
        set_merged(Merged())
        set_received(_ReceivedFile(name, to, checked[0]) if checked and to else None)
        view.redraw()

    async def take_in() -> None:
        results: list[Merged] = []
        if received:
            sharing, file = view.parts.sharing, received
            await view.saved(lambda: results.append(sharing.merge(file.path, file.name)))
        set_merged(results[0] if results else Merged())
        set_received(None)
        view.redraw()

    async def leave() -> None:
        if received:
            view.parts.sharing.discard(received.path)
        set_received(None)

    chooser = use_chooser(
        view,
        take_upload,
        most_bytes=MOST_IMPORT_BYTES,
        began=set_coming,
        to=view.parts.sharing.incoming,
    )
    ask = file_button(
        chooser,
        view.words("sharing-bring-in"),
        ft.Icons.UPLOAD_FILE,
        key="bring_in",
        kind=ft.FilePickerFileType.CUSTOM,
        endings=["zip"],
    )
    rows: list[ft.Control] = [ft.Row([ask])]
    if coming:
        rows.append(notice(view.words("sharing-coming", name=coming), key="coming"))
    elif received:
        rows.append(_received_card(view, received, take_in, leave))
    elif merged.signers:
        rows += _merge_result(view, merged)
    return stretched(rows, 8)


def _received_card(view: View, received: _ReceivedFile, take_in: Tap, leave: Tap) -> ft.Control:
    """Show what is in a file, who signed it and what is wrong with it, before it is imported."""
    words, checked = view.words, received.seen
    rows: list[ft.Control] = [
        label(received.name, bold=True),
        label(words.text(checked.signer_message)),
    ]
    if not checked.faults:
        rows.append(label(words("cli-verified", walks=checked.walks, photos=checked.photos), GOOD))
    for _, fault in checked.faults[:MOST_FAULTS_SHOWN]:
        rows.append(label(words.text(fault), BAD))
    if (more := len(checked.faults) - MOST_FAULTS_SHOWN) > 0:
        rows.append(label(words("sharing-more-faults", count=more), BAD))
    if checked.refused:
        rows.append(label(words("sharing-not-taken"), bold=True))
    ways = [button(words("sharing-leave-it"), leave, key="leave_it", expand=True, height=64)]
    if not checked.refused:
        word, icon = words("sharing-take-in"), ft.Icons.DOWNLOAD_DONE
        tone = Tone.ACCENT
        ways.append(
            button(word, take_in, key="take_in", icon=icon, tone=tone, expand=True, height=64)
        )
    return card(stretched([*rows, ft.Row([*ways], spacing=8)], 8), key="came")


def _merge_result(view: View, merged: Merged) -> list[ft.Control]:
    """Show what became of the walks, who signed them, and what has to be looked at."""
    words = view.words
    rows: list[ft.Control] = [label(words.text(merged.counts), GOOD, bold=True)]
    trusted = view.parts.sharing.known_shops()
    unknown = [
        signer for signer in merged.signers if signer is not None and signer.key not in trusted
    ]
    rows += [
        label(words.text(signer_message(signer, trusted)), size=SMALL)
        for signer in merged.signers
        if signer not in unknown
    ]
    rows += [label(words.text(why), BAD, SMALL) for why in merged.refused.values()]
    cards = [card(stretched(rows, 6), key="merged")]
    cards += [_conflict(view, walk) for walk in sorted(merged.conflicts)]
    cards += [_unknown(view, signer) for signer in unknown]
    return cards


def _conflict(view: View, walk_id: str) -> ft.Control:
    overview = view.parts.store.overview()
    ids = overview.copies.get(walk_id, ())
    line = next(line for line in overview.lines if line.id in ids)
    began = f"{line.began.astimezone():%Y-%m-%d %H:%M}"
    text = view.words("sharing-conflict", vehicle=line.vehicle_name, began=began)
    rows = [label(text, bold=True), *copy_buttons(view, overview, walk_id)]
    return card(stretched(rows, 8), key="conflict")


def _unknown(view: View, signer: Signer) -> ft.Control:
    shop = signer.shop or view.words("exchange-no-name")
    keep = partial(view.parts.sharing.save_shop, signer.key, signer.shop)
    rows = [
        label(view.words("sharing-compare", shop=shop, key=long_key(signer.key))),
        button(
            view.words("sharing-keep-key", shop=shop),
            tapped(view.saved, keep),
            key="keep_key",
            icon=ft.Icons.KEY,
            height=64,
        ),
    ]
    return card(stretched(rows, 8), key="unknown_key")
