"""The sound of one phone: renders what is to be said and plays it in the page.

One `Audio` is kept for the whole visit; setting its `src` plays the clip. A wish that has been
overtaken by a later one is dropped, so that a fast mechanic never hears an old step. What is
needed, such as what an answer was taken for, is heard to its end before anything else begins.
"""

from __future__ import annotations

import asyncio
import io
import wave
from collections.abc import Callable, Iterable
from pathlib import Path

import flet_audio

from walkaround.settings import Settings
from walkaround.voice.clips import Voice
from walkaround.voice.earcons import Earcon, earcon_s
from walkaround.voice.hiss import HISS_S
from walkaround.words.language import Words

SOFT = 0.35
"""The share of the loudness chosen at which is said what must startle nobody."""


STARTS_S = 0.15
"""How long a phone may take to fetch a clip and begin it."""


class Sound:
    """The voice and sounds of one page; made while that page is Flet's present one.

    Attributes:
        on_play: told of each clip that begins, for how many seconds it may be heard.

    Args:
        voice: renders text to clips.
        words: the language that is spoken, asked at each word.
        settings: asked at each word, so that a change is heard at once.
        near: asked at each clip, whether somebody is in at the brakes, whom nothing shall startle.
    """

    def __init__(
        self,
        voice: Voice,
        words: Callable[[], Words],
        settings: Callable[[], Settings],
        near: Callable[[], bool],
    ) -> None:
        self._voice = voice
        self._words = words
        self._settings = settings
        self._near = near
        # Autoplay from the start: a clip that comes together with it would stay silent.
        self._audio = flet_audio.Audio(
            src=_silence(), autoplay=True, release_mode=flet_audio.ReleaseMode.STOP
        )
        self.on_play: Callable[[float], None] = lambda _: None
        self._wish = 0
        self._ends_s = self._needed_to_s = float("-inf")

    @property
    def trouble(self) -> str:
        """Why there is no sound, in a sentence; empty while there is."""
        trouble = self._voice.trouble
        return self._words().text(trouble) if trouble else ""

    async def say(self, text: str, *, soft: bool = False, needed: bool = False) -> float:
        """Speak this now, in place of whatever is being said; softly while somebody is in.

        Args:
            text: what is said.
            soft: somebody was in at the brakes when what it tells of was done.
            needed: it is heard to its end, whatever comes after it.

        Returns:
            Seconds that it takes to say; 0 if nothing is said.
        """
        self._wish += 1
        wish, settings = self._wish, self._settings()
        if not settings.voice or not text:
            return 0.0
        words = self._words()
        digest = await self._voice.render(
            words.spoken(text), settings.rate_wpm, words.voice.language
        )
        if digest is None or (wish != self._wish and not needed):
            return 0.0
        seconds = _seconds(self._voice.file(digest))
        if not await self._play(f"/speech/{digest}.wav", seconds, wish, soft=soft, needed=needed):
            return 0.0
        return seconds

    async def cue(self, earcon: Earcon, *, soft: bool = False) -> None:
        """Play one of the short sounds that stand for what has happened; see `say`."""
        self._wish += 1
        if self._settings().voice:
            address, seconds = f"/earcons/{earcon}.wav", earcon_s(earcon)
            await self._play(address, seconds, self._wish, soft=soft, needed=True)

    async def hiss(self) -> None:
        """Play the hiss of air that leaks."""
        self._wish += 1
        if self._settings().voice:
            await self._play("/sounds/hiss.wav", HISS_S, self._wish, soft=False, needed=False)

    @property
    def silent_s(self) -> float:
        """For how long nothing has been heard, seconds; less than none while something is."""
        return asyncio.get_running_loop().time() - self._ends_s

    async def _play(
        self, address: str, seconds: float, wish: int, *, soft: bool, needed: bool
    ) -> bool:
        """Play a clip once nothing is heard that is needed; whether it was not overtaken."""
        now_s = asyncio.get_running_loop().time
        while (left_s := self._needed_to_s - now_s()) > 0:
            await asyncio.sleep(left_s)
        if wish != self._wish and not needed:
            return False
        # The number makes each clip a new one to the page, so that "again" plays it again.
        self._audio.src = f"{address}?{wish}"
        self._audio.volume = self._settings().volume * (SOFT if soft or self._near() else 1.0)
        self._audio.update()
        self._ends_s = now_s() + seconds + STARTS_S * (seconds > 0)
        self.on_play(self._ends_s - now_s())
        if needed:
            self._needed_to_s = self._ends_s
        return True

    def render_ahead(self, texts: Iterable[str]) -> None:
        """Have these texts rendered before they are needed."""
        settings, words = self._settings(), self._words()
        if settings.voice:
            spoken_texts = map(words.spoken, texts)
            self._voice.render_ahead(spoken_texts, settings.rate_wpm, words.voice.language)

    def give_way(self) -> None:
        """Stop what is being said, unless it is needed: somebody wants to talk."""
        now_s = asyncio.get_running_loop().time()
        if self._needed_to_s <= now_s < self._ends_s:
            self._wish += 1
            self._audio.src = _silence()
            self._audio.update()
            self._ends_s = now_s
            self.on_play(0.0)

    def stop(self) -> None:
        """Stop every sound."""
        self._wish += 1
        self._needed_to_s = float("-inf")
        self._audio.volume = 0
        self._audio.update()


def _seconds(clip: Path | None) -> float:
    if clip is None:
        return 0.0
    try:
        with wave.open(str(clip)) as sound:
            return float(sound.getnframes() / sound.getframerate())
    except (OSError, EOFError, wave.Error, ZeroDivisionError):
        return 0.0  # it went, or was torn, between being found and being opened


def _silence() -> bytes:
    """Return a clip of one silent sample: Flet wants a clip before there is anything to say."""
    clip = io.BytesIO()
    with wave.open(clip, "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(22050)
        out.writeframes(b"\0\0")
    return clip.getvalue()
