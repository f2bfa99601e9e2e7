"""The board as a page: made from the walks as they are now."""

from __future__ import annotations

import logging

from fastapi.responses import Response

from walkaround.base.errors import WalkaroundError
from walkaround.board.page import board_contents
from walkaround.board.rows import Board, board_of
from walkaround.bootstrap import Parts
from walkaround.disk.locations import assets
from walkaround.report.findings import findings_of
from walkaround.report.html import page_html
from walkaround.report.pdf import page_pdf
from walkaround.walk.advance import fold
from walkaround.words.language import Words

log = logging.getLogger(__name__)


def board_file(parts: Parts, words: Words, name: str) -> Response:
    """The board, `board.pdf` or `board.html`."""
    if name not in ("board.pdf", "board.html"):
        return Response(status_code=404)
    board, now = board_of(parts.store.overview()), parts.clock()
    contents = board_contents(board, _seen(parts, board, words), now.local(), words)
    headers = {
        "Cache-Control": "no-store",
        "Content-Disposition": f'inline; filename="board_{now.local():%Y-%m-%d}{name[5:]}"',
    }
    if name == "board.html":
        return Response(page_html(contents), media_type="text/html", headers=headers)
    pdf = page_pdf(contents, now.utc, assets() / "fonts")
    return Response(pdf, media_type="application/pdf", headers=headers)


def _seen(parts: Parts, board: Board, words: Words) -> dict[tuple[str, str], str]:
    """What was found, of each open defect whose walk can be read; none is kept in memory."""
    seen = {}
    for id_ in {defect.walk for row in board.vehicles for defect in row.defects}:
        try:
            walk = fold(parts.store.read(id_).events)
        except WalkaroundError as error:
            log.warning("the board names the defects of %s only: %s", id_, error)
            continue
        for finding in findings_of(walk, words):
            what = "; ".join(fault.what for fault in finding.faults)
            seen[id_, finding.step.id] = what
    return seen
