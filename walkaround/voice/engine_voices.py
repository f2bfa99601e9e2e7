"""The engine's voice for each language: one of espeak-ng, or one of the system's own.

Voice files of espeak-ng are named by BCP 47 codes (lang/ of its data): `en-us`, `es-419` for Latin
America, `de`. On Windows and macOS English is spoken by the voice chosen in the system, another
language by the first voice that lists it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from typing import Any

_ESPEAK: Mapping[str, str] = {"en": "en-us", "es": "es-419"}
"""The American voice of languages that have several."""


def espeak_voice(language: str) -> str:
    """Return the name of espeak-ng's voice for a language such as `es`."""
    return _ESPEAK.get(language, language)


def voice_name(language: str) -> str:
    """Return a name for the voice of a language on this computer; sounds are stored for each."""
    if sys.platform.startswith("linux"):
        return f"espeak-ng {espeak_voice(language)}"
    name = f"{sys.platform} own voice"
    return name if language == "en" else f"{name}, {language}"


def system_voice_id(language: str, voices: Iterable[Any]) -> str:
    """Return the id of the system's voice for a language.

    Args:
        language: a code such as `es`.
        voices: the voices that pyttsx3 lists; their languages are codes such as `es_MX` or `es-ES`.

    Raises:
        RuntimeError: none of them speaks this language.
    """
    for voice in voices:
        codes = (str(code).lower().replace("_", "-") for code in voice.languages)
        if any(code.partition("-")[0] == language for code in codes):
            return str(voice.id)
    raise RuntimeError(f"no voice of this computer speaks {language}")
