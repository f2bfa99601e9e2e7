"""The worker on its own: its lines, its espeak, its AIFF reader.

The AIFF reader is checked against the standard library's writer of that format, `aifc`, which
Python has up to 3.12.
"""

import json
import os
import subprocess
import sys
import wave
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest

from walkaround.voice.worker import letters_for_espeak, wav_from_aiff

COMMAND = [sys.executable, "-m", "walkaround.voice.worker"]


def _ask(*requests: str, **environment: str) -> list[dict[str, str]]:
    done = subprocess.run(
        COMMAND,
        input="\n".join(requests),
        capture_output=True,
        text=True,
        check=True,
        env=os.environ | environment,
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


def _request(path: Path) -> str:
    return json.dumps({"text": "Tail lamps", "rate_wpm": 170, "language": "en", "path": str(path)})


def test_each_line_is_answered_with_one_line_whatever_it_holds(tmp_path: Path) -> None:
    replies = _ask(
        _request(tmp_path / "a.wav"),
        "no json",
        "{}",
        _request(tmp_path / "no folder" / "b.wav"),
        _request(tmp_path / "c.wav"),
    )
    assert [list(reply) for reply in replies] == [[], ["error"], ["error"], ["error"], []]
    assert "No such file" in replies[3]["error"]
    assert (tmp_path / "a.wav").stat().st_size > 22050
    assert (tmp_path / "c.wav").stat().st_size > 22050


@pytest.mark.skipif(find_spec("espeakng_loader") is None, reason="espeak comes from the system")
def test_espeak_finds_its_data_however_long_the_path(tmp_path: Path) -> None:
    spec = find_spec("espeakng_loader")
    assert spec is not None
    assert spec.submodule_search_locations is not None
    deep = tmp_path / ("d" * 100) / ("e" * 100)
    deep.mkdir(parents=True)
    (deep / "espeakng_loader").symlink_to(spec.submodule_search_locations[0])
    assert _ask(_request(tmp_path / "a.wav"), PYTHONPATH=str(deep)) == [{}]


@pytest.mark.parametrize(
    ("said", "respelled"),
    [
        ("A B S lamp", "eh B S lamp"),
        ("the A B S lamp", "the eh B S lamp"),
        ("S A E", "S eh E"),
        ("pin A to ground", "pin eh to ground"),
        ("Connect pin B, A", "Connect pin B, eh"),
        ("A lamp is dark. A second one too", "A lamp is dark. A second one too"),
        ("Air is a gas", "Air is a gas"),
    ],
)
def test_the_letter_a_is_not_taken_for_the_article(said: str, respelled: str) -> None:
    assert letters_for_espeak(said) == respelled


@pytest.mark.filterwarnings("ignore:'aifc' is deprecated:DeprecationWarning")
@pytest.mark.parametrize(("coding", "rate_hz"), [(b"NONE", 22050), (b"sowt", 44100)])
def test_aiff_becomes_the_same_sound_as_wav(
    coding: bytes, rate_hz: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    aifc = pytest.importorskip("aifc")
    samples = np.random.default_rng(7).integers(-32768, 32768, 999, dtype=np.int16)
    out = BytesIO()
    monkeypatch.setattr(out, "close", lambda: None)
    with aifc.open(out, "wb") as aiff:
        aiff.setparams((1, 2, rate_hz, 0, coding, b""))
        aiff.writeframes(samples.astype(">i2").tobytes())
    with wave.open(BytesIO(wav_from_aiff(out.getvalue()))) as wav:
        assert wav.getframerate() == rate_hz
        assert np.array_equal(np.frombuffer(wav.readframes(999), "<i2"), samples)
