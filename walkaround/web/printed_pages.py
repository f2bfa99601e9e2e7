"""Pages to print: the QR code that opens a vehicle's start page, and the card of its whole walk."""

from __future__ import annotations

from html import escape

from fastapi.responses import HTMLResponse, Response

from walkaround.access.pairing import qr_modules, qr_svg
from walkaround.base.errors import WalkaroundError
from walkaround.bootstrap import Parts, today
from walkaround.disk.locations import assets
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.words.prompts import power_name

_PAGE = (
    '<!DOCTYPE html><html lang="{language}"><head><meta charset="utf-8">'
    '<meta name="viewport" content="width=device-width, initial-scale=1">'
    "<title>{name}</title><style>body{{font:20px/1.4 system-ui,sans-serif;color:#000;"
    "background:#fff;max-width:90mm;margin:10mm auto;padding:0 4mm;text-align:center}}"
    "h1{{font-size:28px;margin:0 0 4mm}}svg{{width:70mm;max-width:100%;height:auto}}"
    "p{{font-size:16px;overflow-wrap:anywhere}}</style></head>"
    "<body><h1>{name}</h1>{code}<p>{how}</p><p>{link}</p></body></html>\n"
)


def code_page(parts: Parts, name: str, base: str, language: str) -> Response:
    """Return the page with the QR code of one vehicle, `ID.html`; 404 if there is none.

    The code has no key: the phone that scans it must have been paired before.

    Args:
        parts: the parts of the app.
        name: the vehicle's id and the file ending.
        base: the address at which this device, and others, reach the app.
        language: the language to print in; that of the app if empty.
    """
    vehicle = parts.own_vehicles.vehicle(name.removesuffix(".html"))
    if vehicle is None or not name.endswith(".html"):
        return Response(status_code=404)
    words, link = parts.words_in(language), f"{base}start/{vehicle.id}"
    return HTMLResponse(
        _PAGE.format(
            language=words.language,
            name=escape(vehicle.name),
            code=qr_svg(link),
            how=escape(words("vehicle-code-how")),
            link=escape(link),
        ),
        headers={"cache-control": "no-store"},
    )


def card_file(parts: Parts, name: str, base: str, language: str, power: str) -> Response:
    """Return the card of one vehicle, `ID.pdf`; 404 if there is no such vehicle or power source.

    Args:
        parts: the parts of the app.
        name: the vehicle's id and the file ending.
        base: the address at which this device, and others, reach the app.
        language: the language to print in; that of the app if empty.
        power: the id of the power source that switches the lamp circuits.
    """
    # Imported here, since this takes long.
    from walkaround.report.quick_card.card import quick_card

    vehicle = parts.own_vehicles.vehicle(name.removesuffix(".pdf"))
    library, words = parts.library, parts.words_in(language)
    if vehicle is None or not name.endswith(".pdf"):
        return Response(status_code=404)
    source = powers_for(vehicle, library.power_sources).get(power)
    if source is None:
        return Response(status_code=404)
    day = today(parts.clock)
    try:
        shop = parts.settings().shop
        plan = plan_walk(vehicle, library.rules, day=day, power=power, together=True, shop=shop)
    except WalkaroundError as error:
        return Response(words.text(error.text), status_code=409)
    link, power_text = f"{base}start/{vehicle.id}", power_name(power, source.title, words)
    now, fonts = parts.clock().utc, assets() / "fonts"
    pdf = quick_card(plan, power_text, link, qr_modules(link), now, words, fonts)
    headers = {"Cache-Control": "no-store"}
    return Response(pdf, media_type="application/pdf", headers=headers)
