"""The gate, asked without a web server: whoever is not paired gets nothing but refusals."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.routing import APIRoute
from starlette.routing import BaseRoute, Mount, Route, WebSocketRoute
from support.gates import HOST, ORIGIN, Answer, Inner, asked, guarded, paired, scope

from walkaround.access.admission import MOST_WRONG, cookie_value
from walkaround.access.gate import MOST_BODY_BYTES, Gate
from walkaround.access.pairing import Pairing
from walkaround.web.server import ungated_app

METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT", "DANCE")
TRICKS = (
    "/..", "/../pairing/key", "/..%2fpairing/key", "/files/../settings.json", "//", "//files/x",
    "/\\..\\key", "/%5c..", "/./", "/files/%00", "/\0", "/" + "a" * 5000, "/" + "a/" * 3000, "",
    "*", "http://elsewhere.example/", "/ws/", "/WS", "/speech/../../pairing/key", "/é\udcff",
    "/.well-known/x", "/favicon.ico", "/index.html", "/main.dart.js", "/received/x",
)  # fmt: skip


@pytest.fixture
def pairing(tmp_path: Path) -> Pairing:
    return Pairing(tmp_path / "pairing" / "key", f"{ORIGIN}/")


def addresses(routes: list[BaseRoute]) -> Iterator[tuple[str, str]]:
    """Each route with something in place of its parameters: kind and path."""
    for route in routes:
        if isinstance(route, Mount):
            yield "http", "/"
            yield from addresses(list(getattr(route.app, "routes", [])))
        else:
            assert isinstance(route, APIRoute | Route | WebSocketRoute | BaseRoute)
            path = getattr(route, "path", "/").replace("{", "").replace("}", "")
            yield "websocket" if "WebSocket" in type(route).__name__ else "http", path


async def test_every_route_with_every_method_refuses_who_is_not_paired(tmp_path: Path) -> None:
    """The routes are the app's own list: one that is added is asked by itself."""
    async with guarded(tmp_path) as app:
        routes = set(addresses(ungated_app(app.parts).routes))
        known = {"/files/name", "/speech/digest.wav", "/vehicles/name", "/"}
        assert {*known, "/plans/walk_id/step_id/language/name.svg"} <= {p for _, p in routes}
        statuses = set()
        for path in (*(path for _, path in routes), "/ws", *TRICKS):
            for origin in ({}, {"origin": ORIGIN}, {"origin": "http://elsewhere.example"}):
                for method in METHODS:
                    answer = await asked(app.gate, scope(path, method=method, headers=origin))
                    statuses.add(answer.status)
                    assert b"walkaround is" not in answer.body
                socket = await asked(app.gate, scope(path, kind="websocket", headers=origin))
                statuses.add(socket.status)
        assert statuses == {401, 403}


async def test_a_thousand_keys_open_nothing_while_a_paired_device_works(tmp_path: Path) -> None:
    async with guarded(tmp_path) as app:
        headers = paired(app.pairing)
        statuses = []
        for number in range(1000):
            key = app.pairing.key[::-1] if number == 0 else f"{number:043d}"
            request = scope("/", query=f"key={key}")
            if number % 3 == 1:
                request = scope("/", headers={"cookie": f"walkaround_pairing={key}"})
            if number % 3 == 2:
                told = {"cookie": f"walkaround_pairing={key}", "origin": ORIGIN}
                request = scope("/ws", kind="websocket", headers=told)
            statuses.append((await asked(app.gate, request)).status)
            if number % 50 == 0:
                page = await asked(app.gate, scope("/", headers=headers))
                assert page.status == 200
        assert statuses == [401] * MOST_WRONG + [429] * (1000 - MOST_WRONG)
        right = await asked(app.gate, scope("/", query=f"key={app.pairing.key}"))
        assert (right.status, right.headers["retry-after"]) == (429, "60")


async def test_the_right_key_gives_the_cookie_and_leads_to_the_address_without_it(
    pairing: Pairing,
) -> None:
    gate = Gate(Inner(), pairing)
    answer = await asked(gate, scope("/walk/a b", query=f"key={pairing.key}"))
    assert answer.status == 303
    assert answer.headers["location"] == "/walk/a%20b"
    cookie, *rest = answer.headers["set-cookie"].split("; ")
    assert cookie == f"walkaround_pairing={cookie_value(pairing.key)}"
    assert set(rest) == {"Path=/", "Max-Age=31536000", "HttpOnly", "SameSite=lax"}
    assert pairing.key not in str(answer.sent)
    assert answer.headers["cache-control"] == "no-store"


async def test_over_https_the_cookie_goes_to_secure_pages_only(pairing: Pairing) -> None:
    request = scope("/", query=f"key={pairing.key}", scheme="https")
    answer = await asked(Gate(Inner(), pairing), request)
    assert answer.headers["set-cookie"].startswith("__Host-walkaround_pairing=")
    assert answer.headers["set-cookie"].endswith("; Secure")


@pytest.mark.parametrize(
    "path",
    ["//elsewhere.example/", "/\\elsewhere.example", "\\\\elsewhere.example/", "///x",
     "/%0d%0aX: y", "/\r\nSet-Cookie: x=y", "http://elsewhere.example/", "", "/?a", "/é"],
)  # fmt: skip
async def test_no_address_leads_away_from_here(pairing: Pairing, path: str) -> None:
    answer = await asked(Gate(Inner(), pairing), scope(path, query=f"key={pairing.key}"))
    place = answer.headers["location"]
    assert place.startswith("/")
    assert place[1:2] not in ("/", "\\")
    assert place.isascii()
    assert place.isprintable()
    assert "?" not in place


async def test_the_page_of_a_refusal_says_in_plain_words_how_to_pair(pairing: Pairing) -> None:
    answer = await asked(Gate(Inner(), pairing), scope())
    assert answer.status == 401
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert int(answer.headers["content-length"]) == len(answer.body)
    assert b"This device is not paired" in answer.body
    assert b"scan the code" in answer.body
    assert "www-authenticate" in answer.headers
    assert b"<script" not in answer.body


# what is let through


async def test_what_is_paired_comes_through_as_it_is(pairing: Pairing) -> None:
    inner = Inner()
    request = scope("/x", headers=paired(pairing))
    answer = await asked(Gate(inner, pairing), request)
    assert (answer.status, answer.body) == (200, b"inside")
    assert inner.seen == [request]


async def test_without_a_key_only_this_machine_is_served() -> None:
    gate = Gate(Inner(), None)
    assert (await asked(gate, scope(headers={"host": "localhost:8765"}))).status == 200
    assert (await asked(gate, scope())).status == 403
    socket = scope("/ws", kind="websocket", headers={"host": "localhost:1", "origin": ORIGIN})
    assert (await asked(gate, socket)).status == 403
    own = {"host": "localhost:1", "origin": "http://localhost:1"}
    assert (await asked(gate, scope("/ws", kind="websocket", headers=own))).status == 101


async def test_every_answer_forbids_the_browser_what_the_page_does_not_need(
    pairing: Pairing,
) -> None:
    inner = Inner()
    inner.headers = [(b"access-control-allow-origin", b"*"), (b"x-frame-options", b"ALLOW")]
    gate = Gate(inner, pairing)
    entered = await asked(gate, scope(headers=paired(pairing)))
    led = await asked(gate, scope(query=f"key={pairing.key}"))
    refused = await asked(gate, scope())
    foreign = await asked(gate, scope(headers={"host": "a b; script-src *"}))
    for answer in (entered, led, refused, foreign):
        headers = answer.headers
        policy = headers["content-security-policy"]
        assert "default-src 'self'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe-eval'" not in policy.replace("wasm-unsafe-eval'", "")
        assert "*" not in policy
        assert headers["x-frame-options"] == "DENY"
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "no-referrer"
        assert headers["cross-origin-resource-policy"] == "same-origin"
        assert "access-control-allow-origin" not in headers
    assert f"ws://{HOST} wss://{HOST}" in entered.headers["content-security-policy"]


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"content-length": str(MOST_BODY_BYTES)}, 200),
        ({"content-length": str(MOST_BODY_BYTES + 1)}, 413),
        ({"content-length": "9" * 5000}, 413),
        ({"content-length": "-1"}, 413),
        ({"transfer-encoding": "chunked"}, 413),
    ],
)
async def test_a_request_carries_no_more_than_it_may(
    pairing: Pairing, headers: dict[str, str], status: int
) -> None:
    told = paired(pairing, {"origin": ORIGIN, **headers})
    answer = await asked(Gate(Inner(), pairing), scope(method="PUT", headers=told))
    assert answer.status == status
    assert (await asked(Gate(Inner(), pairing), scope(headers=headers))).status == 401


# secrets


async def test_no_key_and_no_cookie_is_in_the_log_or_on_a_page(
    pairing: Pairing, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    gate = Gate(Inner(), pairing)
    answers: list[Answer] = []
    for key in (pairing.key, "guess1", *(f"guess{number}" for number in range(20))):
        answers.append(await asked(gate, scope(query=f"key={key}")))
        answers.append(await asked(gate, scope(headers={"cookie": f"walkaround_pairing={key}"})))
    old = pairing.key
    await asyncio.to_thread(pairing.renew)
    await asyncio.sleep(0)
    text = caplog.text + str([answer.body for answer in answers])
    assert "the key was changed" in caplog.text
    for secret in (old, pairing.key, cookie_value(old), cookie_value(pairing.key), "guess"):
        assert secret not in text
