"""The lines of the page that people sign: with their signature on the screen, or to fill in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.base.signing import SignedFor
from walkaround.drawing.paper.signature import signature_svg
from walkaround.report.contents import Block, FormLine, Prose, ReportPicture
from walkaround.walk.state import Walk, to_sign
from walkaround.words.language import Words

_BLANKS: Mapping[SignedFor, tuple[str, ...]] = {
    "walked": ("name", "signature", "date"),
    "tag_placed": ("by", "date"),
    "tag_lifted": ("by", "date"),
    "repaired": ("what", "name", "signature", "date"),
    "brakes": ("name", "signature", "date"),
}
"""The blanks to fill in by hand where nobody has signed."""


def signed_lines(walk: Walk, words: Words) -> Iterator[Block]:
    """Make the signature lines of a walk, and a note on how long such records are kept."""
    lines, done = to_sign(walk), {event.what for event in walk.signed}
    for what in lines:
        title = words(f"sign-{what.replace('_', '-')}")
        for event in (event for event in walk.signed if event.what == what):
            description = words("sign-signature-of", name=event.name)
            drawing = (
                ReportPicture(signature_svg(event.strokes, description)) if event.strokes else ""
            )
            filled = (event.name, drawing, f"{event.at.local():%Y-%m-%d}")
            yield FormLine(title, _blanks(("name", "signature", "date"), words), filled)
        if what not in done and what in _BLANKS:
            yield FormLine(title, _blanks(_BLANKS[what], words))
    if "drivers_repaired" in lines and not done & {"drivers_repaired", "drivers_unnecessary"}:
        title = words("report-drivers-report")
        yield FormLine(title, _blanks(("name", "signature", "date"), words))
    yield Prose(words("report-keep"), "quiet")


def _blanks(names: tuple[str, ...], words: Words) -> tuple[str, ...]:
    return tuple(words(f"report-blank-{name}") for name in names)
