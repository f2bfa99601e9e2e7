"""The lines of the page that people sign: as they did with a finger, or with room for the pen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.base.signing import SignedFor
from walkaround.drawing.paper.signature import signature_svg
from walkaround.report.contents import Block, Prose, ReportPicture, ToWrite
from walkaround.walk.state import Walk, to_sign
from walkaround.words.language import Words

_BLANKS: Mapping[SignedFor, tuple[str, ...]] = {
    "walked": ("name", "signature", "date"),
    "tag_placed": ("by", "date"),
    "tag_lifted": ("by", "date"),
    "repaired": ("what", "name", "signature", "date"),
    "brakes": ("name", "signature", "date"),
}
"""What is left to the pen where nobody signed."""


def signed_lines(walk: Walk, words: Words) -> Iterator[Block]:
    """Make the lines of a walk, and say how long such records are kept."""
    lines, done = to_sign(walk), {event.what for event in walk.signed}
    for what in lines:
        title = words(f"sign-{what.replace('_', '-')}")
        for event in (event for event in walk.signed if event.what == what):
            told = words("sign-signature-of", name=event.name)
            ink = ReportPicture(signature_svg(event.strokes, told)) if event.strokes else ""
            signed = (event.name, ink, f"{event.at.local():%Y-%m-%d}")
            yield ToWrite(title, _blanks(("name", "signature", "date"), words), signed)
        if what not in done and what in _BLANKS:
            yield ToWrite(title, _blanks(_BLANKS[what], words))
    if "drivers_repaired" in lines and not done & {"drivers_repaired", "drivers_unnecessary"}:
        title = words("report-drivers-report")
        yield ToWrite(title, _blanks(("name", "signature", "date"), words))
    yield Prose(words("report-keep"), "quiet")


def _blanks(names: tuple[str, ...], words: Words) -> tuple[str, ...]:
    return tuple(words(f"report-blank-{name}") for name in names)
