"""The real server over real sockets, asked by whoever is parked outside."""

from __future__ import annotations

import asyncio
import json
import re
import socket
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import numpy as np
import pytest
import websockets
import zxingcpp
from browser.serving import running
from support.voices import SilentVoice
from support.walks import WALK_ID, begun, plan

from walkaround.access.admission import cookie_value
from walkaround.access.gate import DROPPED
from walkaround.access.pairing import Pairing
from walkaround.base.errors import MachineError
from walkaround.bootstrap import Parts, build
from walkaround.drawing.plan_svg import PictureStyle, plan_svg
from walkaround.walk.events import Answered, Noted
from walkaround.web.files import record_file
from walkaround.web.server import MOST_MESSAGE_BYTES, _address_to_open, asgi

MARK = "known-only-inside-the-data-folder"
TRICKS = (
    "/..", "/../", "/../../../../etc/passwd", "/..%2f..%2f..%2fetc/passwd", "/%2e%2e/%2e%2e/key",
    "/%2e%2e%2f%2e%2e%2fpairing%2fkey", "/..%5c..%5cpairing%5ckey", "/..\\..\\pairing\\key",
    "//etc/passwd", "///etc/passwd", "/%2fetc%2fpasswd", "/assets/../../../etc/passwd",
    "/files/..%2f..%2fsettings.json", "/files/../settings.json", "/files/..json", "/files/.json",
    "/files/..%2fpairing%2fkey.json", "/files/%2e%2e.json", "/files/%00.json", "/files/x%00.csv",
    "/files/" + "a" * 3000 + ".json", "/vehicles/..%2f..%2fsettings.toml", "/vehicles/%00.toml",
    "/vehicles/..toml", "/vehicles/" + "v" * 3000 + ".toml", "/speech/..%2f..%2fsettings.wav",
    "/speech/..%2f..%2fpairing%2fkey.wav", "/speech/%00.wav", "/speech/" + "0" * 3000 + ".wav",
    "/plans/..%2f..%2fsettings/x/en/388x172_dark.svg", "/plans/%00/%00/en/388x172_dark.svg",
    "/plans/x/../en/388x172_dark.svg", "/plans/x/x/x/9999999999x1_dark.svg", "/plans/x/x/x/%0a.svg",
    "/%00", "/index.html%00.png", "/icons/%00", "/a%00/b", "/" + "a" * 5000, "/" + "x/" * 3000,
    "/" + "%2e%2e/" * 50, "/%", "/%zz", "/%c0%ae%c0%ae/", "/%ff%fe", "/settings.json", "/key",
    "/pairing/key", "/pairing/key.txt", "/walks/x.json", "/C:/windows/win.ini", "/con", "/nul.txt",
    "/docs", "/redoc", "/openapi.json", "/oauth_callback?state=x", "/upload", "/received/x",
    "/.git/config", "/walkaround/cli.py", "/icons/", "/icons", "/icons/..", "/icons/../index.html",
    "http://elsewhere.example/", "elsewhere", "*", "/;/../key", "/ws", "/ws/..", "/#", "/?key",
)  # fmt: skip


@dataclass(frozen=True)
class Server:
    """A running server that pairs, and the parts it is made of."""

    port: int
    parts: Parts
    pairing: Pairing

    @property
    def cookie(self) -> str:
        return f"walkaround_pairing={cookie_value(self.pairing.key)}"

    @property
    def origin(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def says(self, request: bytes, *, no_more: bool = False) -> bytes:
        """What comes back for these bytes until the server is done; `no_more` says they are all."""
        answer = b""
        with socket.create_connection(("127.0.0.1", self.port), timeout=20) as line:
            # The server need not care to read everything.
            with suppress(ConnectionError):
                line.sendall(request)
            with suppress(OSError):
                if no_more:
                    line.shutdown(socket.SHUT_WR)
                while more := line.recv(65536):
                    answer += more
        return answer

    def asked(self, path: str, *headers: str, method: str = "GET", body: bytes = b"") -> bytes:
        """The answer to a request written by hand."""
        told = (f"Host: 127.0.0.1:{self.port}", "Connection: close", *headers)
        head = f"{method} {path} HTTP/1.1\r\n" + "".join(f"{line}\r\n" for line in told) + "\r\n"
        return self.says(head.encode("latin-1") + body)


def status(answer: bytes) -> int:
    return int(answer.split(b" ", 2)[1])


def head_of(answer: bytes) -> dict[str, str]:
    lines = answer.partition(b"\r\n\r\n")[0].decode("latin-1").split("\r\n")[1:]
    return {name.lower(): value for name, _, value in (line.partition(": ") for line in lines)}


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    data = tmp_path_factory.mktemp("server") / "data"
    parts = build(data, voice=SilentVoice(), open_at="http://192.0.2.7:8765/")
    assert parts.pairing is not None
    (data / "settings.json").write_text(json.dumps({"who": MARK}), encoding="utf-8")
    (data / "key").write_text(MARK, encoding="utf-8")
    teller = begun()
    parts.store.create(teller.walk.events[0])
    try:
        with running(asgi(parts)) as address:
            yield Server(urlsplit(address).port or 0, parts, parts.pairing)
    finally:
        parts.close()


def outside(answer: bytes, server: Server) -> bool:
    """Whether the answer holds what only the data folder or this machine holds."""
    secrets = (MARK.encode(), server.pairing.key.encode(), b"root:x:", b"BEGIN ")
    return any(secret in answer for secret in secrets)


def test_no_path_however_written_gets_more_than_a_refusal_unpaired(server: Server) -> None:
    statuses = {status(server.asked(path)) for path in TRICKS}
    assert statuses <= {400, 401, 403, 404, 429}
    assert not [path for path in TRICKS if outside(server.asked(path), server)]


def test_no_path_however_written_leads_out_of_the_folders_paired(server: Server) -> None:
    index = server.asked("/", f"Cookie: {server.cookie}").partition(b"\r\n\r\n")[2]
    assert b"walkaround is loading" in index
    for path in TRICKS:
        answer = server.asked(path, f"Cookie: {server.cookie}")
        assert not outside(answer, server), path
        assert status(answer) in (200, 303, 307, 400, 404, 405, 426), path
        if status(answer) == 200:
            # Whatever is no file is the page itself, which finds its screen by the address.
            assert answer.partition(b"\r\n\r\n")[2] in (index, b""), path
        if status(answer) in (303, 307):
            assert "elsewhere" not in head_of(answer)["location"]


def test_a_refusal_of_what_asks_for_the_head_alone_has_no_page(server: Server) -> None:
    head, _, page = server.asked("/", method="HEAD").partition(b"\r\n\r\n")
    assert (status(head), page) == (401, b"")


@pytest.mark.parametrize(
    "request_",
    [
        b"\r\n\r\n", b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"GET / HTTP/1.1\r\n\r\n",
        b"GET / HTTP/1.0\r\n\r\n", b"\x16\x03\x01\x02\x00\x01", b"\x00" * 100_000,
        b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"GET / HTTP/1.1\r\nX: " + b"a" * 200_000, b"GET /" + b"a" * 200_000,
        b"GET / HTTP/1.1\r\nHost: localhost\r\nUpgrade: h2c\r\nConnection: Upgrade\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\n",
        b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nTransfer-Encoding: chunked\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nExpect: 100-continue\r\nContent-Length: 9\r\n\r\n",
    ],
)  # fmt: skip
def test_bytes_that_are_no_proper_request_get_nothing(server: Server, request_: bytes) -> None:
    answer = server.says(request_, no_more=True)
    assert not answer or 400 <= status(answer) < 500
    assert b"walkaround is loading" not in answer


def test_a_second_request_on_the_same_line_is_looked_at_as_the_first(server: Server) -> None:
    host = f"Host: 127.0.0.1:{server.port}\r\n"
    one = f"GET /manifest.json HTTP/1.1\r\n{host}Cookie: {server.cookie}\r\n\r\n"
    answer = server.says((one + f"GET / HTTP/1.1\r\n{host}Connection: close\r\n\r\n").encode())
    first, _, second = answer.partition(b"HTTP/1.1 401")
    assert first.startswith(b"HTTP/1.1 200")
    assert b"not paired" in second


def test_the_plan_of_a_step_is_drawn_for_a_paired_device_only(server: Server) -> None:
    plan = server.parts.open_walks.walk(WALK_ID).plan
    assert plan is not None
    step, cookie = plan.steps[0], f"Cookie: {server.cookie}"
    path = f"/plans/{WALK_ID}/{step.id}/en/388x172_dark.svg"
    assert status(server.asked(path)) == 401
    answer = server.asked(path, cookie)
    assert status(answer) == 200
    assert head_of(answer)["content-type"] == "image/svg+xml"
    assert head_of(answer)["cache-control"].startswith("private, max-age=")
    drawn = plan_svg(plan, step, PictureStyle(388, 172, dark=True))
    assert answer.partition(b"\r\n\r\n")[2] == drawn.encode()
    assert "USTED" in server.asked(path.replace("/en/", "/es/"), cookie).decode()
    for wrong in (
        path.replace(WALK_ID, "another"),
        path.replace(step.id, "another"),
        path.replace("388x172", "388x1"),
        path.replace("388x172", "3e2x172"),
        path.replace("dark", "dim"),
    ):
        assert status(server.asked(wrong, cookie)) == 404, wrong


def test_records_and_pages_are_served_to_a_paired_device(server: Server) -> None:
    answer = server.asked(f"/files/{WALK_ID}.json", f"Cookie: {server.cookie}")
    assert status(answer) == 200
    headers = head_of(answer)
    assert headers["cache-control"] == "no-store"
    assert headers["content-disposition"].startswith("attachment")
    assert "server" not in headers
    assert "access-control-allow-origin" not in headers
    assert not outside(answer, server)
    for path in ("/docs", "/redoc", "/openapi.json", "/oauth_callback"):
        assert status(server.asked(path, f"Cookie: {server.cookie}")) == 404


def test_a_walk_is_served_as_each_kind_of_file_under_a_name_that_says_whose(
    server: Server,
) -> None:
    cookie = f"Cookie: {server.cookie}"
    for kind, media_type in (
        ("pdf", "application/pdf"),
        ("html", "text/html; charset=utf-8"),
        ("csv", "text/csv; charset=utf-8"),
        ("ndjson", "application/x-ndjson; charset=utf-8"),
        ("json", "application/json; charset=utf-8"),
    ):
        answer = server.asked(f"/files/{WALK_ID}.{kind}", cookie)
        headers = head_of(answer)
        assert (status(answer), headers["content-type"]) == (200, media_type)
        name = rf'attachment; filename="pump_trailer_3_2026-11-2\d_\d{{4}}\.{kind}"'
        assert re.fullmatch(name, headers["content-disposition"])
    assert status(server.asked(f"/files/{WALK_ID}.doc", cookie)) == 404
    assert status(server.asked(f"/files/{WALK_ID}.pdf")) == 401


def test_what_a_header_says_of_the_sender_is_not_believed(server: Server) -> None:
    """Else each guess could come from an address of its own."""
    statuses = []
    for n in range(14):
        others = (f"X-Forwarded-For: 192.0.2.{n}", f"Forwarded: for=192.0.2.{n}")
        statuses.append(status(server.asked(f"/?key=guess{n}", *others)))
    assert set(statuses[-4:]) == {429}
    assert status(server.asked("/", f"Cookie: {server.cookie}")) == 200


def test_a_body_that_is_too_large_is_not_read(server: Server) -> None:
    own = (f"Cookie: {server.cookie}", f"Origin: {server.origin}")
    large = server.asked("/received/x", "Content-Length: 30000000", *own, method="PUT")
    assert status(large) == 413
    endless = server.asked("/received/x", "Transfer-Encoding: chunked", *own, method="PUT")
    assert status(endless) == 413
    nobody = server.asked(
        "/received/x", "Content-Length: 300000", method="PUT", body=b"x" * 300_000
    )
    assert not nobody or status(nobody) == 403


# WebSockets


def joined(server: Server, *, cookie: str = "", origin: str | None = None) -> websockets.connect:
    headers = {"Cookie": cookie} if cookie else {}
    where = f"ws://127.0.0.1:{server.port}/ws"
    return websockets.connect(
        where, origin=origin, additional_headers=headers, proxy=None, max_size=None
    )


@pytest.mark.parametrize("cookie", ["", "walkaround_pairing=x", "right"])
@pytest.mark.parametrize("origin", [None, "http://elsewhere.example", "null", "right"])
async def test_a_websocket_is_opened_to_a_paired_page_of_ours_alone(
    server: Server, cookie: str, origin: str | None
) -> None:
    shown = server.cookie if cookie == "right" else cookie
    line = joined(server, cookie=shown, origin=server.origin if origin == "right" else origin)
    if cookie == origin == "right":
        async with line as page:
            assert (await page.ping()) is not None
        return
    with pytest.raises(websockets.InvalidStatus) as refused:
        await line
    assert refused.value.response.status_code in (401, 403, 429)


async def test_a_new_key_ends_an_open_page_and_its_cookie(server: Server) -> None:
    old = server.cookie
    async with joined(server, cookie=old, origin=server.origin) as page:
        await asyncio.to_thread(server.pairing.renew)
        with pytest.raises(websockets.ConnectionClosed) as ended:
            await asyncio.wait_for(page.recv(), 20)
    assert ended.value.rcvd is not None
    assert ended.value.rcvd.code == DROPPED
    with pytest.raises(websockets.InvalidStatus):
        await joined(server, cookie=old, origin=server.origin)
    async with joined(server, cookie=server.cookie, origin=server.origin) as page:
        assert (await page.ping()) is not None


async def test_a_message_that_is_too_long_ends_its_page_and_no_other(server: Server) -> None:
    line = {"cookie": server.cookie, "origin": server.origin}
    async with joined(server, **line) as other, joined(server, **line) as page:
        with suppress(websockets.ConnectionClosed):
            await page.send(b"\x00" * (MOST_MESSAGE_BYTES + 1))
        with pytest.raises(websockets.ConnectionClosed) as ended:
            await asyncio.wait_for(page.recv(), 20)
        assert ended.value.rcvd is not None
        assert ended.value.rcvd.code == 1009  # RFC 6455, 7.4.1: too big to process
        await asyncio.wait_for(await other.ping(), 20)


def test_a_full_disk_opens_no_browser_but_serves(
    server: Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise MachineError("There is no room left.")

    monkeypatch.setattr("walkaround.web.server.write_secret", full)
    with _address_to_open(server.parts, "http://127.0.0.1:1/") as page:
        assert page == ""


async def test_what_strangers_send_does_not_fill_the_log(
    server: Server, caplog: pytest.LogCaptureFixture
) -> None:
    for _ in range(5):
        with pytest.raises(websockets.InvalidStatus):
            await joined(server, cookie="", origin=None)
        await asyncio.to_thread(server.says, b"\x16\x03\x01 garbage\r\n\r\n")
    assert caplog.records == []


@pytest.mark.parametrize("kind", ["csv", "json"])
def test_a_record_whose_walk_lost_entries_says_so(tmp_path: Path, kind: str) -> None:
    parts = build(tmp_path, voice=SilentVoice())
    walk_id = parts.open_walks.begin(plan(), "Ana")
    parts.open_walks.do(walk_id, "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
    parts.open_walks.do(walk_id, "Ana", (Noted, {"step": "chocks", "text": "mud"}))
    assert b"was damaged" not in record_file(parts, parts.words, f"{walk_id}.{kind}").body
    parts.close()
    path = parts.store.path(walk_id)
    path.write_bytes(path.read_bytes()[:-40])
    parts = build(tmp_path, voice=SilentVoice())
    found = bytes(record_file(parts, parts.words, f"{walk_id}.{kind}").body).decode()
    assert f"The file of walk {walk_id} was damaged: its first 2 entries" in found
    parts.close()


def test_the_code_of_a_vehicle_opens_its_start_page_and_holds_no_key(server: Server) -> None:
    paired = f"Cookie: {server.cookie}"
    answer = server.asked("/codes/pump_trailer_3.html", paired).decode()
    link = f"{server.origin}/start/pump_trailer_3"
    assert f"<p>{link}</p>" in answer
    assert "Pump trailer 3" in answer
    assert server.pairing.key not in answer
    assert _read(answer) == link
    assert status(server.asked("/codes/no_such.html", paired)) == 404
    assert status(server.asked("/codes/pump_trailer_3", paired)) == 404


def _read(page: str) -> str:
    """What a code that is drawn as runs of dark modules says, by a reader of its own."""
    drawn = re.search(r'viewBox="0 0 (\d+) \d+".*? d="([^"]+)"/></svg>', page, re.DOTALL)
    assert drawn is not None
    pixels = np.full((int(drawn[1]),) * 2, 255, np.uint8)
    x, y = 0.0, 0.0
    for kind, numbers in re.findall(r"([Mmh])([-\d. ]+)", drawn[2]):
        values = [float(number) for number in numbers.split()]
        if kind == "h":
            pixels[int(y), int(x) : int(x + values[0])] = 0
            x += values[0]
        else:
            x, y = (x + values[0], y + values[1]) if kind == "m" else (values[0], values[1])
    [code] = zxingcpp.read_barcodes(np.kron(pixels, np.ones((8, 8), np.uint8)))
    return str(code.text)
