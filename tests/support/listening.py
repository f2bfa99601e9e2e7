"""A speech recogniser's ears: what it makes of sound, given a list of what may be said."""

from __future__ import annotations

import re
import wave
from collections.abc import Iterable
from pathlib import Path

import numpy as np
from pocketsphinx import Config, Decoder, get_model_path
from support.checklist_texts import shipped_library

from walkaround.plan.plan_walk import plan_walk
from walkaround.voice.clips import RenderedVoice
from walkaround.words.pronunciation import pronounced

LISTENS_AT_HZ = 16_000
_RESPELLED = {"gladhand": "glad hand", "gladhands": "glad hands", "pushrods": "push rods"}
"""Words that the recogniser's dictionary lacks, written with words that it has."""


RATE_WPM = 160
"""As the app speaks until it is told otherwise."""
PATIENCE_S = 120.0
"""How long a voice may take for one text: here nobody waits for it, and the machine may be busy."""


def titles() -> list[str]:
    """Every title that a walk of the demo vehicles has.

    One circuit at a time, and in the fewest looks.
    """
    library = shipped_library()
    plans = [
        plan_walk(vehicle, library.rules, together=together)
        for vehicle in library.vehicles
        for together in (True, False)
    ]
    return sorted({str(step.title) for plan in plans for step in plan.steps})


async def said_by(voice: RenderedVoice, text: str) -> Path:
    """A text as the app says it, in a sound file."""
    digest = await voice.render(pronounced(text), RATE_WPM)
    assert digest is not None
    path = voice.file(digest)
    assert path is not None
    return path


def listener() -> Decoder:
    """A recogniser of US English with its own dictionary."""
    model = Path(get_model_path()) / "en-us"
    return Decoder(
        Config(
            hmm=str(model / "en-us"),
            dict=str(model / "cmudict-en-us.dict"),
            lm=None,
            samprate=LISTENS_AT_HZ,
            lw=1.0,  # what the list makes likely counts no more than what is heard
            cmn="batch",  # each text for itself: none is judged by how the ones before it sounded
            loglevel="FATAL",
        )
    )


def listen_for(decoder: Decoder, texts: Iterable[str]) -> dict[str, str]:
    """Have it listen for these alone; gives each in its words, without those that it lacks."""
    listed = {text: words for text in texts if (words := _as_listed(decoder, text))}
    grammar = " | ".join(dict.fromkeys(listed.values()))
    decoder.add_jsgf_string("listed", f"#JSGF V1.0; grammar g; public <listed> = {grammar};")
    decoder.activate_search("listed")
    return listed


def _as_listed(decoder: Decoder, text: str) -> str | None:
    """Write a text in words of the listener's dictionary; None if it lacks one of them."""
    letter_a = re.sub(r"(?<=\w )A\b|\bA(?= [A-Z]\b)", "a.", pronounced(text))  # "a" is the article
    words = re.findall(r"a\.|[a-z']+", letter_a.lower())
    respelled = " ".join(_RESPELLED.get(word, word) for word in words)
    known = all(decoder.lookup_word(word) for word in respelled.split())
    return respelled if known else None


def samples(path: Path) -> np.ndarray:
    """Resample a sound file to the listener's rate: from -1 to 1."""
    with wave.open(str(path)) as wav:
        rate_hz = wav.getframerate()
        sound = np.frombuffer(wav.readframes(wav.getnframes()), "<i2")
    wanted = round(len(sound) / rate_hz * LISTENS_AT_HZ)
    spectrum = np.fft.rfft(sound)[: wanted // 2 + 1]
    return np.fft.irfft(spectrum, wanted) * wanted / len(sound) / 32768


def quietly(path: Path) -> np.ndarray:
    """A sound file in a quiet place: a little noise, as it trips over digital silence."""
    padded = np.pad(samples(path), LISTENS_AT_HZ // 4)
    return padded + np.random.default_rng(1).normal(0.0, 8.0, padded.size) / 32768


def heard(decoder: Decoder, sound: np.ndarray) -> str:
    """What a recogniser with a grammar makes of samples."""
    decoder.start_utt()
    whole = np.clip(sound * 32768, -32768, 32767).astype("<i2").tobytes()
    decoder.process_raw(whole, full_utt=True)
    decoder.end_utt()
    hypothesis = decoder.hyp()
    return hypothesis.hypstr if hypothesis else ""
