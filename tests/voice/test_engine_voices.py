"""Who speaks which language."""

from __future__ import annotations

import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from walkaround.voice.clips import RenderedVoice
from walkaround.voice.engine_voices import system_voice_id, voice_name

VOICES = [
    SimpleNamespace(id="zira", languages=["en_US"]),
    SimpleNamespace(id="sabina", languages=["es-MX"]),
    SimpleNamespace(id="helena", languages=["es_ES"]),
]


def test_a_language_is_spoken_by_the_first_voice_of_the_computer_that_has_it() -> None:
    assert system_voice_id("es", VOICES) == "sabina"
    with pytest.raises(RuntimeError, match="no voice of this computer speaks de"):
        system_voice_id("de", VOICES)


def test_each_language_has_sounds_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    for platform in ("linux", "win32", "darwin"):
        monkeypatch.setattr(sys, "platform", platform)
        assert len({voice_name(language) for language in ("en", "es", "de")}) == 3
    monkeypatch.setattr(sys, "platform", "linux")
    assert voice_name("en") == "espeak-ng en-us"
    assert voice_name("es") == "espeak-ng es-419"


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="espeak speaks on Linux alone")
async def test_the_same_words_sound_otherwise_in_spanish(tmp_path: Path) -> None:
    voice = RenderedVoice(tmp_path)
    try:
        digests = [await voice.render("Cargue la roja", 170, each) for each in ("en", "es")]
        paths = [voice.file(digest or "") for digest in digests]
    finally:
        voice.close()
    english, spanish = (path.read_bytes() if path else b"" for path in paths)
    assert min(len(english), len(spanish)) > 22050
    assert english != spanish
