"""What phones that are talked to cost: this process with its server, and the process that hears.

Needs what `support/spoken_trials.py` names. Run it on a machine that does nothing else.
"""

from __future__ import annotations

import asyncio
import json
import multiprocessing
import os
import time
from itertools import product
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
import websockets
from browser.serving import running
from support.scripted_recognition import Listening
from support.talkers import OTHERS, missing, says
from support.voices import SilentVoice
from support.workshop import HZ, noise, spoken_in_noise

from walkaround.access.admission import cookie_name, cookie_value
from walkaround.bootstrap import build
from walkaround.recognition.audio_streams import AudioStreams, Vocabulary
from walkaround.recognition.process import HearingProcess, is_installed
from walkaround.spoken_answers.phrases import PHRASES, SCORED
from walkaround.web.server import asgi

pytestmark = [
    pytest.mark.soak,
    pytest.mark.skipif(
        bool(missing()) or not is_installed(), reason=f"the extra `recognition`, or {missing()}"
    ),
]

CHUNK_S = 0.04
ROUND_S = 5.0
"""Whoever talks says a phrase so often: prompts take longer."""
ROUNDS = 3
KINDS = ("listening", "talking")


class Cost(NamedTuple):
    """What was used: seconds of a core by the server and by the process that hears, their MB."""

    server_s: float
    hearing_s: float
    server_mb: float
    hearing_mb: float


def _used(process: int) -> tuple[float, float]:
    """Seconds of a core so far, and MB in memory now, of this process."""
    fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    status = Path(f"/proc/{process}/status").read_text().splitlines()
    resident_kb = int(next(row for row in status if row.startswith("VmRSS")).split()[1])
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK"), resident_kb / 1024


def _phones(address: str, cookie: str, tickets: list[str], sound: bytes, *, talks: bool) -> None:
    """So many phones whose microphones are open; each presses, says the phrase and lets go."""
    step = int(CHUNK_S * HZ) * 2

    async def phone(ticket: str, late_s: float) -> None:
        headers = {"cookie": cookie}
        origin = websockets.Origin(address.rstrip("/"))
        where = f"{address.replace('http', 'ws')}microphone/{ticket}"
        async with websockets.connect(where, origin=origin, additional_headers=headers) as socket:
            await socket.send(json.dumps({"joined": True}))
            await asyncio.sleep(late_s)
            begun_s = time.monotonic()
            for at in range(round(ROUNDS * ROUND_S / CHUNK_S)):
                within = at % round(ROUND_S / CHUNK_S)
                if talks and within in (15, 60):
                    await socket.send(json.dumps({"held": within == 15}))
                chunk = sound[within * step : (within + 1) * step]
                await socket.send(chunk)
                await asyncio.sleep(begun_s + (at + 1) * CHUNK_S - time.monotonic())

    async def all_of_them() -> None:
        each_s = ROUND_S / len(tickets)
        await asyncio.gather(*(phone(ticket, at * each_s) for at, ticket in enumerate(tickets)))

    asyncio.run(all_of_them())


def test_a_phone_costs_a_tenth_of_a_core_and_ten_megabytes_at_most(tmp_path: Path) -> None:
    said = spoken_in_noise(says(OTHERS[4], PHRASES["ok"]), 20.0, 1)
    quiet = noise(ROUND_S - len(said) / HZ, 2) * float(np.abs(said).max()) * 0.02
    sound = (np.concatenate([said, quiet]) * 32767).astype("<i2").tobytes()
    process = HearingProcess()
    recognition = AudioStreams(process, installed=True)
    parts = build(
        tmp_path, voice=SilentVoice(), recognition=recognition, open_at="http://127.0.0.1:1/"
    )
    assert parts.pairing is not None
    cookie = f"{cookie_name('http')}={cookie_value(parts.pairing.key)}"
    costs: dict[tuple[str, int], Cost] = {}
    understood: dict[tuple[str, int], int] = {}
    spawn = multiprocessing.get_context("spawn")
    try:
        with running(asgi(parts)) as address:
            # The first press starts the process that hears, and loads the model.
            process.begin(SCORED, (), b"", lambda _: None)
            assert process._process is not None
            hearing = process._process.pid
            time.sleep(5.0)
            for kind, count in product(KINDS, (1, 5, 10)):
                pages = [Listening(vocabulary=Vocabulary(SCORED)) for _ in range(count)]
                streams = [recognition.open(page) for page in pages]
                tickets = [stream.ticket for stream in streams]
                phones = spawn.Process(
                    target=_phones,
                    args=(address, cookie, tickets, sound),
                    kwargs={"talks": kind == "talking"},
                )
                before = *_used(os.getpid()), *_used(hearing)
                phones.start()
                phones.join(2 * ROUNDS * ROUND_S + 30)
                assert phones.exitcode == 0
                after = *_used(os.getpid()), *_used(hearing)
                costs[kind, count] = Cost(
                    after[0] - before[0], after[2] - before[2], after[1], after[3]
                )
                understood[kind, count] = sum(page.told.count(PHRASES["ok"]) for page in pages)
                for stream in streams:
                    recognition.end(stream)
    finally:
        parts.close()
    seconds = ROUNDS * ROUND_S
    for (kind, count), cost in costs.items():
        cores = [used / seconds / count for used in (cost.server_s, cost.hearing_s)]
        print(
            f"\n{count} {kind}: {cores[0]:.3f} and {cores[1]:.3f} of a core each; "
            f"{cost.server_mb:.0f} and {cost.hearing_mb:.0f} MB; {understood[kind, count]} heard"
        )
    for (kind, count), cost in costs.items():
        assert (cost.server_s + cost.hearing_s) / seconds / count <= 0.1, (kind, count)
        assert cost.hearing_mb <= 300
        assert (understood[kind, count] > 0) == (kind == "talking")
    for kind in KINDS:
        few, many = costs[kind, 1], costs[kind, 10]
        more_mb = many.server_mb + many.hearing_mb - few.server_mb - few.hearing_mb
        assert more_mb / 9 <= 10
