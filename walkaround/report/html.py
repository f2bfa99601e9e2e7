"""The page as one complete HTML file, without scripts, and without fonts or pictures of others."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator, Sequence
from html import escape
from itertools import zip_longest

from walkaround.report.contents import Block, Contents, FormLine, Photo, Prose, ReportPicture, Table

_STYLE = """
@page { size: %(paper)s; margin: 12mm }
* { box-sizing: border-box }
body { max-width: 190mm; margin: 0 auto; padding: 4mm; color: #000; background: #fff;
  font: 10pt/1.3 "DejaVu Sans Condensed", "DejaVu Sans", Arial, sans-serif;
  overflow-wrap: anywhere }
h1 { font-size: 1.9em; margin: 0 }
h2 { font-size: 1.12em; margin: 1em 0 .3em; border-bottom: 2px solid #555; break-after: avoid }
p { margin: 0 0 .3em; white-space: pre-line }
.strong, th { font-weight: bold }
.quiet, footer, .blank { font-size: .88em; color: #3c3c3c }
.headline { font-size: 1.35em; font-weight: bold; margin-top: .5em }
dl { columns: 2; margin: .6em 0 }
dl div { display: flex; gap: 1em; break-inside: avoid }
dt { flex: 0 0 8em; font-weight: bold }
dd { flex: 1; margin: 0 }
dd:empty, .blank i { border-bottom: 1px solid #555 }
table { width: 100%%; border-collapse: collapse; table-layout: fixed }
th, td { text-align: left; vertical-align: top; padding: .15em .4em .15em 0;
  border-bottom: 1px solid #888; white-space: pre-line }
.pictures { display: flex; break-inside: avoid }
.pictures svg { display: block; width: 100%%; height: auto;
  print-color-adjust: exact; -webkit-print-color-adjust: exact }
.photos { display: flex; flex-wrap: wrap }
figure { margin: 0; padding: 0 .5em .4em 0; break-inside: avoid }
figure img { display: block; width: 100%%; height: 42mm; object-fit: contain;
  object-position: left; print-color-adjust: exact }
figcaption { font-size: .88em }
.write { display: flex; align-items: end; gap: .8em; min-height: 2.6em; break-inside: avoid }
.write b { flex: 0 0 34%% }
.blank { flex: 1; display: flex; gap: .4em }
.blank i { flex: 1; color: #000; font-style: normal; font-weight: bold }
.blank svg { display: block; height: 10mm; width: auto; max-width: 100%%;
  print-color-adjust: exact; -webkit-print-color-adjust: exact }
.blank { align-items: end }
.stamp { float: right; border: 2px solid #000; padding: .3em .8em; font-weight: bold }
.across { position: fixed; inset: 0; display: flex; align-items: center; justify-content: center;
  pointer-events: none; color: transparent; -webkit-text-stroke: 1px #9e9e9e;
  font-size: min(14vw, 34mm); font-weight: bold; white-space: nowrap }
.across span { transform: rotate(-55deg) }
@media (max-width: 640px) { dl { columns: 1 } .pictures > div { flex-basis: 100%% !important }
  figure { flex-basis: 50%% !important } }
footer { margin-top: 1.5em; border-top: 1px solid #888 }
/* Read off a screen, on a phone in narrow columns that would break every word. */
@media screen { body { font-size: 16px } .quiet, footer, .blank, figcaption { font-size: 1em } }
@media screen and (max-width: 640px) {
  thead, td:empty { display: none }
  table, tbody, tr, td { display: block }
  tr { padding: .3em 0; border-bottom: 1px solid #888 }
  td { padding: .1em 0; border-bottom: 0 }
  td[data-head]::before { content: attr(data-head) ": "; font-weight: bold }
  .write { flex-wrap: wrap; padding-top: .6em }
  .write b, .blank { flex: 0 0 100%% } }
"""


def page_html(contents: Contents) -> str:
    """Return the page as one HTML document."""
    style = _STYLE % {"paper": contents.paper}
    head = (
        f'<!DOCTYPE html>\n<html lang="{escape(contents.language)}">\n<head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f"<title>{escape(contents.title)}</title><style>{style}</style></head>\n<body>\n"
    )
    return head + "\n".join(_body(contents)) + "\n</body>\n</html>\n"


def _body(contents: Contents) -> Iterator[str]:
    if contents.stamp:
        stamp = escape(contents.stamp)
        # The second one is drawn across the page; a screen reader must not read it twice.
        yield f'<p class="stamp">{stamp}</p>'
        yield f'<div class="across" aria-hidden="true"><span>{stamp}</span></div>'
    yield f"<h1>{escape(contents.title)}</h1>"
    yield f'<p class="strong">{escape(contents.about)}</p>'
    facts = (
        f"<div><dt>{escape(name)}</dt><dd>{escape(value)}</dd></div>"
        for name, value in contents.facts
    )
    yield f"<dl>{''.join(facts)}</dl>"
    yield f'<p class="headline">{escape(contents.headline)}</p>'
    for section in contents.sections:
        yield f"<section><h2>{escape(section.title)}</h2>"
        yield from _blocks(section.blocks)
        yield "</section>"
    yield f"<footer>{escape(contents.foot)}</footer>"


def _blocks(blocks: Sequence[Block]) -> Iterator[str]:
    for place, block in enumerate(blocks):
        match block:
            case Prose(text=text, look=look):
                yield f'<p class="{look}">{escape(text)}</p>'
            case Table():
                yield from _table(block)
            case ReportPicture(svg=svg, share=share):
                is_inside = place > 0 and isinstance(blocks[place - 1], ReportPicture)
                is_followed = place + 1 < len(blocks) and isinstance(
                    blocks[place + 1], ReportPicture
                )
                yield "" if is_inside else '<div class="pictures" style="flex-wrap: wrap">'
                yield f'<div style="flex: 0 0 {100 * share:.2f}%">{svg}</div>'
                yield "" if is_followed else "</div>"
            case Photo(jpeg=jpeg, caption=caption, share=share):
                is_inside = place > 0 and isinstance(blocks[place - 1], Photo)
                is_followed = place + 1 < len(blocks) and isinstance(blocks[place + 1], Photo)
                yield "" if is_inside else '<div class="photos">'
                source = f"data:image/jpeg;base64,{b64encode(jpeg).decode()}"
                text = escape(caption)
                yield f'<figure style="flex: 0 0 {100 * share:.2f}%">'
                yield f'<img src="{source}" alt="{text}"><figcaption>{text}</figcaption></figure>'
                yield "" if is_followed else "</div>"
            case FormLine(what=what, blanks=blanks, filled=filled):
                filled_texts = [
                    each.svg if isinstance(each, ReportPicture) else escape(each) for each in filled
                ]
                lines = "".join(
                    f'<span class="blank">{escape(blank)}<i>{inside}</i></span>'
                    for blank, inside in zip_longest(blanks, filled_texts, fillvalue="")
                )
                yield f'<div class="write"><b>{escape(what)}</b>{lines}</div>'


def _table(table: Table) -> Iterator[str]:
    columns = "".join(f'<col style="width: {100 * share:.2f}%">' for share in table.shares)
    yield f"<table><colgroup>{columns}</colgroup>"
    if any(table.head):
        names = "".join(f"<th>{escape(name)}</th>" for name in table.head)
        yield f"<thead><tr>{names}</tr></thead>"
    yield "<tbody>"
    for row in table.rows:
        cells = (
            _cell(cell, name, strong=column in table.strong)
            for column, (cell, name) in enumerate(zip(row, table.head, strict=True))
        )
        yield f"<tr>{''.join(cells)}</tr>"
    yield "</tbody></table>"


def _cell(text: str, head: str, *, strong: bool) -> str:
    """Write a cell; on a narrow screen, which shows no head, it tells by itself what it holds."""
    look = ' class="strong"' if strong else ""
    head_attribute = f' data-head="{escape(head)}"' if head else ""
    return f"<td{look}{head_attribute}>{escape(text)}</td>"
