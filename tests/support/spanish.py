"""What may not be left of English in Spanish: its commonest words that are no Spanish ones."""

from __future__ import annotations

import re
from collections.abc import Iterable

from walkaround.bootstrap import language_words

SPANISH = language_words("es")

_ENGLISH = frozenset(
    re.findall(
        r"\w+",
        """
        and are at axle be been brake brakes but by chamber chock chocks each end engine for
        from front gauge had has have here hold how if into is it its key knob lamp lamps left
        light line lines must nobody nothing of off on open or out rear right rod rods
        shut side source step steps still stroke tap than that the their them then there these
        they this to until valve was were what wheel wheels when where which while who will with
        without yet you your
        """,
    )
)
_WORD = re.compile(r"[^\W\d_]+")


def english_words(text: str, kept: Iterable[str] = ()) -> list[str]:
    """The English words of a Spanish text.

    Args:
        text: what was shown or said in Spanish.
        kept: what may stand in it as it is: sources, ids, what people typed.
    """
    for each in sorted(filter(None, kept), key=len, reverse=True):
        text = text.replace(each, " ")
    return [word for word in _WORD.findall(text) if word.lower() in _ENGLISH]
