"""Pronunciation: a text of the screen as it is said.

A screen shows ``110 psi`` and ``1/4 in``. Speech engines guess at such tokens, each in its own way,
so nothing is left for them to guess: what `pronounced` returns holds no digit, unit symbol,
abbreviation or bracket. Which words they become is a language's own: it brings a module of rules,
such as `speech/spanish.py`; without one, its engine reads numbers as it can.
"""

from __future__ import annotations

import re
import unicodedata

from walkaround.words.speech import english, spanish

MOST_CHARS = 3000
"""How much of a long text is said: twice the longest prompt of the checklists."""

_RULES = {
    language: tuple((re.compile(pattern), said) for pattern, said in module.RULES)
    for language, module in (("en", english), ("es", spanish))
}
_POWERS = {"en": (" squared ", " cubed "), "es": (" cuadrados ", " cúbicos ")}
_KEPT_PUNCTUATION = frozenset(".,:;!?'-–—")


def pronounced(text: str, language: str = "en") -> str:
    """Write a text of the screen as it is said; in a language with rules no digit is left in it.

    Saying what is already spoken changes nothing. A text without letter or digit gives "". Of a
    text longer than `MOST_CHARS` the beginning is said; a strange name cannot stall the voice.
    """
    squared, cubed = _POWERS.get(language, ("²", "³"))
    text_said = text[:MOST_CHARS].replace("²", squared).replace("³", cubed)
    text_said = _plain_characters(text_said)
    for pattern, replacement in _RULES.get(language, ()):
        text_said = pattern.sub(replacement, text_said)
    return _tidy("".join(c if _can_be_said(c) else " " for c in text_said))


def _plain_characters(text: str) -> str:
    """Fold typographic variants (½, ², full-width and foreign digits) into plain characters."""
    text = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text)
    folded = unicodedata.normalize("NFKC", text).translate(_LOOKALIKES)
    return "".join(_plain_character(c) for c in folded)


_LOOKALIKES = str.maketrans({"⁄": "/", "−": "-", "‑": "-", "‐": "-", "’": "'", "_": " "})


def _plain_character(character: str) -> str:
    if character.isdigit():
        return str(unicodedata.digit(character))
    if character.isspace():
        return "\n" if character == "\n" else " "
    return "" if unicodedata.category(character).startswith("C") else character


def _can_be_said(character: str) -> bool:
    return character in _KEPT_PUNCTUATION or unicodedata.category(character)[0] in "LMNZ"


def _tidy(text: str) -> str:
    text = re.sub(r"\s+", " ", text)
    text = re.sub(r" ?,[ ,]*", ", ", text)
    text = re.sub(r", (?=[.:;!?])", "", text)
    return re.sub(r" +(?=[.,:;!?])", "", text).strip(" ,")
