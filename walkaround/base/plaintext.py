"""Invisible characters, which may not stand in a text: found, removed, or written as codes.

Control characters move a terminal's cursor; marks of writing direction make a text read as
another one; characters without width make two names look the same. None of them tells anybody
anything that may be written here.
"""

from __future__ import annotations

import re
from unicodedata import category, name

# Unicode general categories (UAX #44): controls, format characters (direction marks, no width),
# halves of a character, line and paragraph separators.
_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
# Letters and marks that are drawn as nothing (Default_Ignorable_Code_Point, UAX #44).
_DRAWN_AS_NOTHING = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u3164\uffa0")
_BREAKS = re.compile(r"\r\n|[\t\n\v\f\r\x1c-\x1e\x85\u2028\u2029]")


def is_hidden(character: str) -> bool:
    """Tell whether this character is not seen where it stands; a blank is seen, a tab is not."""
    return category(character) in _HIDDEN or character in _DRAWN_AS_NOTHING


def hidden_in(text: str) -> str:
    """Return the first character of a text that is not seen, empty if there is none."""
    return next((c for c in text if is_hidden(c)), "") if _may_hide(text) else ""


def code_point(character: str) -> str:
    """Write a character as people look it up: "U+202E RIGHT-TO-LEFT OVERRIDE"."""
    return f"U+{ord(character):04X} {name(character, '')}".rstrip()


def one_line(text: str) -> str:
    """Put a typed text in one line: breaks become blanks, what is not seen is left out."""
    return " ".join(_seen(_BREAKS.sub(" ", text)).split())


def some_lines(text: str) -> str:
    """Keep the lines of a typed text, and leave out what is not seen."""
    lines = (_seen(line).rstrip() for line in _BREAKS.split(text.replace("\t", " ")))
    return "\n".join(lines).strip()


def written_out(text: str) -> str:
    r"""Write a text with what is not seen written out, as in JSON: `\u202e`; lines stay lines.

    So whatever stands in a file can be printed, and a JSON document means the same as before.
    """
    if not _may_hide(text):
        return text
    return "".join(_escaped(c) if c != "\n" and is_hidden(c) else c for c in text)


def _seen(text: str) -> str:
    return "".join(c for c in text if not is_hidden(c)) if _may_hide(text) else text


def _may_hide(text: str) -> bool:
    """Tell quickly, and no for nearly all texts, whether anything in a text may be hidden."""
    return not text.isprintable() or not _DRAWN_AS_NOTHING.isdisjoint(text)


def _escaped(character: str) -> str:
    units = character.encode("utf-16-be", "surrogatepass")
    return "".join(rf"\u{units[at : at + 2].hex()}" for at in range(0, len(units), 2))
