"""The board as a page to print, made from the current walks."""

from __future__ import annotations

from fastapi.responses import Response

from walkaround.board.defect_details import read_fault_texts
from walkaround.board.page import board_contents
from walkaround.board.rows import board_of
from walkaround.bootstrap import Parts
from walkaround.disk.locations import assets
from walkaround.report.html import page_html
from walkaround.report.pdf import page_pdf
from walkaround.words.language import Words


def board_file(parts: Parts, words: Words, name: str) -> Response:
    """Return the board as `board.pdf` or `board.html`; 404 for another name."""
    if name not in ("board.pdf", "board.html"):
        return Response(status_code=404)
    board, now = board_of(parts.store.overview()), parts.clock()
    fault_texts = read_fault_texts(board.vehicles, parts.store, words)
    contents = board_contents(board, fault_texts, now.local(), words)
    headers = {
        "Cache-Control": "no-store",
        "Content-Disposition": f'inline; filename="board_{now.local():%Y-%m-%d}{name[5:]}"',
    }
    if name == "board.html":
        return Response(page_html(contents), media_type="text/html", headers=headers)
    pdf = page_pdf(contents, now.utc, assets() / "fonts")
    return Response(pdf, media_type="application/pdf", headers=headers)
