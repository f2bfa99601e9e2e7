"""Who speaks a language: espeak's voices by their names, or one of the computer's own.

Voice files of espeak-ng are named by BCP 47 codes (lang/ of its data): `en-us`, `es-419` for Latin
America, `de`. On Windows and macOS English is spoken by the voice that is set there, another
language by the first voice that says it is of that language.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from typing import Any

_ESPEAK: Mapping[str, str] = {"en": "en-us", "es": "es-419"}
"""For languages with several voices, the one of the Americas."""


def espeak_voice(language: str) -> str:
    """Name the voice of espeak-ng for a language such as `es`."""
    return _ESPEAK.get(language, language)


def speaker(language: str) -> str:
    """Tell who speaks a language on this computer, so that each has sounds of its own."""
    if sys.platform.startswith("linux"):
        return f"espeak-ng {espeak_voice(language)}"
    own = f"{sys.platform} own voice"
    return own if language == "en" else f"{own}, {language}"


def own_voice(language: str, voices: Iterable[Any]) -> str:
    """Choose a voice of the computer by its language.

    Args:
        language: such as `es`.
        voices: as pyttsx3 lists them; their languages are codes such as `es_MX` or `es-ES`.

    Returns:
        Its id.

    Raises:
        RuntimeError: none of them says that it speaks this language.
    """
    for voice in voices:
        codes = (str(code).lower().replace("_", "-") for code in voice.languages)
        if any(code.partition("-")[0] == language for code in codes):
            return str(voice.id)
    raise RuntimeError(f"no voice of this computer speaks {language}")
