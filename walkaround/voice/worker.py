"""The program that turns texts into sound files: the only module that imports pyttsx3.

It runs as a process of its own (``python -m walkaround.voice.worker``), since engines hang and
crash, and a process can be killed. Each line on stdin is a JSON object ``{"text", "rate_wpm",
"language", "path"}`` with an absolute path; each gets one line on stdout: ``{}`` once the file is
complete, or ``{"error": "..."}``. End of input ends it. The files are WAV; on Linux 22,050 Hz,
mono, 16 bit.

Engines: on Linux espeak-ng, from the ``espeakng_loader`` wheel, or from the system where that wheel
is missing; on Windows and macOS the system's own. `engine_voices` chooses the voice.
"""

from __future__ import annotations

import ctypes
import io
import json
import os
import re
import signal
import struct
import sys
import threading
import wave
from collections import deque
from pathlib import Path
from typing import Any

from walkaround.voice.engine_voices import espeak_voice, system_voice_id

# From espeak-ng's speak_lib.h: the range of rates, and two arguments of espeak_GetParameter.
_ESPEAK_WPM = (80, 450)
_RATE, _CURRENT = 1, 1
_ESPEAK_LIMIT_S = 30.0
_ATTEMPTS = 5
_MEMORY_BYTES = 1 << 30
_LONGEST_S = 60
"""A request that takes longer ends the process: the app that would end it may itself be gone."""


class Renderer:
    """Renders texts with pyttsx3, a new engine for each.

    One engine used twice hangs or races with its own callbacks on some systems. Espeak also works
    in a thread of its own, and pyttsx3 does not wait for it:

    - `runAndWait` returns before a longer text is written, so the end of the utterance is awaited;
      the engine before is kept until then, since espeak's thread may still use it.
    - The rate is lost when pyttsx3 cancels before espeak has set it, so it is checked afterwards,
      and the text is rendered again if needed.
    - What the driver raises in that thread reaches only `sys.unraisablehook`.
    """

    def __init__(self) -> None:
        self._espeak = _load_espeak() if sys.platform.startswith("linux") else None
        from pyttsx3.engine import Engine  # here, since its import loads the library

        self._new_engine = Engine
        self._last_engines: deque[Any] = deque(maxlen=2)

    def render(self, text: str, rate_wpm: int, language: str, path: Path) -> None:
        """Write `text` as a WAV file to `path`; raise whatever an engine raises."""
        if self._espeak is None:
            self._render_once(text, rate_wpm, language, path)
        else:
            self._render_with_espeak(self._espeak, text, rate_wpm, language, path)
        if path.read_bytes()[:4] == b"FORM":
            path.write_bytes(wav_from_aiff(path.read_bytes()))

    def _render_with_espeak(
        self, espeak: ctypes.CDLL, text: str, rate_wpm: int, language: str, path: Path
    ) -> None:
        text = letters_for_espeak(text) if language == "en" else text
        slowest, fastest = _ESPEAK_WPM
        rate_wpm = min(max(rate_wpm, slowest), fastest)
        for _ in range(_ATTEMPTS):
            self._render_once(text, rate_wpm, language, path)
            if espeak.espeak_GetParameter(_RATE, _CURRENT) == rate_wpm:
                return
        raise RuntimeError(f"espeak did not take the rate {rate_wpm}")

    def _render_once(self, text: str, rate_wpm: int, language: str, path: Path) -> None:
        engine = self._new_engine()
        self._last_engines.append(engine)
        finished = threading.Event()
        errors: list[BaseException] = []

        def fail(unraisable: sys.UnraisableHookArgs) -> None:
            if isinstance(unraisable.exc_value, RuntimeError):
                errors.append(unraisable.exc_value)
                finished.set()

        sys.unraisablehook = fail
        engine.connect("finished-utterance", lambda **_: finished.set())
        engine.connect("error", lambda exception, **_: errors.append(exception))
        if self._espeak is not None:
            engine.setProperty("voice", espeak_voice(language))
        elif language != "en":
            engine.setProperty("voice", system_voice_id(language, engine.getProperty("voices")))
        engine.setProperty("rate", rate_wpm)
        engine.save_to_file(text, str(path))
        engine.runAndWait()
        if self._espeak is not None and not finished.wait(_ESPEAK_LIMIT_S):
            raise TimeoutError("espeak did not finish")
        if errors:
            raise errors[0]


def _load_espeak() -> ctypes.CDLL:
    """Load espeak before pyttsx3 does by its SONAME, so that both use the same library.

    Espeak ends the process if the path of its data is longer than 160 characters, so the path is
    given relative to the data's folder.
    """
    try:
        import espeakng_loader
    except ImportError:
        return ctypes.CDLL("libespeak-ng.so.1")
    os.chdir(Path(espeakng_loader.get_data_path()).parent)
    os.environ["ESPEAK_DATA_PATH"] = "."
    return ctypes.CDLL(espeakng_loader.get_library_path(), mode=ctypes.RTLD_GLOBAL)


def letters_for_espeak(text: str) -> str:
    """Respell the letter A, which espeak reads as the article: "pin uh", "uh B S".

    It is a letter if it is a capital inside a sentence, or before another single capital.
    """
    return re.sub(r"(?<=[\w,] )A\b(?!')|\bA(?= [A-Z]\b)", "eh", text)


def wav_from_aiff(data: bytes) -> bytes:
    """Convert 16-bit AIFF or uncompressed AIFF-C, which macOS writes, to WAV.

    Layout: Apple, Audio Interchange File Format 1.3 (1989); AIFF-C draft (1991), from memory.
    """
    chunks, at = {}, 12
    while at + 8 <= len(data):
        name, size = struct.unpack_from(">4sL", data, at)
        chunks[name] = data[at + 8 : at + 8 + size]
        at += 8 + size + size % 2
    channels, _, bits, exponent, mantissa = struct.unpack_from(">hLhHQ", chunks[b"COMM"])
    coding = chunks[b"COMM"][18:22] if data[8:12] == b"AIFC" else b"NONE"
    if bits != 16 or coding not in (b"NONE", b"twos", b"sowt"):
        raise ValueError(f"cannot convert AIFF with {bits} bits, coding {coding!r}")
    offset = struct.unpack_from(">L", chunks[b"SSND"])[0]
    samples = bytearray(chunks[b"SSND"][8 + offset :])
    if coding != b"sowt":  # big-endian
        samples[0::2], samples[1::2] = samples[1::2], samples[0::2]
    rate_hz = round(mantissa * 2.0 ** (exponent - 16383 - 63))
    out = io.BytesIO()
    with wave.open(out, "wb") as wav:
        wav.setparams((channels, 2, rate_hz, 0, "NONE", ""))
        wav.writeframes(samples)
    return out.getvalue()


def _limit_memory() -> None:
    """Limit the memory of this process, so that an engine cannot use up that of the machine."""
    if sys.platform.startswith("linux"):
        import resource

        _, hard_limit = resource.getrlimit(resource.RLIMIT_AS)
        soft_limit = (
            _MEMORY_BYTES
            if hard_limit == resource.RLIM_INFINITY
            else min(_MEMORY_BYTES, hard_limit)
        )
        resource.setrlimit(resource.RLIMIT_AS, (soft_limit, hard_limit))


def _alarm(seconds: int) -> None:
    """End this process after some seconds, even inside an engine's code; 0 cancels that."""
    if hasattr(signal, "alarm"):
        signal.alarm(seconds)


def main() -> None:
    """Answer requests until stdin ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the process that started this one ends it
    _limit_memory()
    replies = os.fdopen(os.dup(1), "w", encoding="ascii")
    os.dup2(2, 1)  # drivers print; stdout is for replies alone
    renderer: Renderer | None = None
    with replies:
        for line in sys.stdin.buffer:
            reply = {}
            _alarm(_LONGEST_S)
            try:
                request = json.loads(line)
                renderer = renderer or Renderer()
                path = Path(request["path"])
                renderer.render(request["text"], request["rate_wpm"], request["language"], path)
            except Exception as error:  # an engine may raise anything, and the app must be told
                reply = {"error": str(error) or type(error).__name__}
            print(json.dumps(reply), file=replies, flush=True)
            _alarm(0)


if __name__ == "__main__":
    main()
