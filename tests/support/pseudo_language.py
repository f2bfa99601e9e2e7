"""A language made of the English files: every letter accented, every text about 40 % longer.

What is drawn in it and still reads as English was not said from a message file; what is cut off in
it will be cut off in a real language. Numbers, lists and months come from the libraries in
Ukrainian, whose letters are not English either.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from fluent.syntax import FluentParser, FluentSerializer
from fluent.syntax.ast import TextElement
from fluent.syntax.visitor import Transformer
from pydantic import BaseModel

from walkaround.base.message import Message
from walkaround.library.languages import message_files
from walkaround.words.language import Words

LANGUAGE = "uk"
LONGER = 1.4
_ACCENTED = dict(zip("abcdefghijklmnopqrstuvwxyz", "áƀçđéƒĝĥíĵķļɱñóþǫŕšţúṽŵẋýž", strict=True))
_LETTERS = str.maketrans(_ACCENTED | {a.upper(): b.upper() for a, b in _ACCENTED.items()})
_DOUBLED = re.compile("[áéíóúñ]")
_PLACEHOLDER = re.compile(r"(\{[^{}]+\})")


def accented(text: str) -> str:
    """Every letter of a text accented, and some doubled until it is 40 % longer."""
    wanted = max(1, round(len(text) * (LONGER - 1)))
    return _DOUBLED.sub(r"\g<0>\g<0>", text.translate(_LETTERS), count=wanted)


class _Accents(Transformer):
    """Accents what a message file says, and leaves what is filled into it."""

    def visit_TextElement(self, node: TextElement) -> TextElement:
        node.value = accented(node.value)
        return node


def pseudo_file(source: str) -> str:
    """A message file in the pseudo-language."""
    return FluentSerializer().serialize(_Accents().visit(FluentParser().parse(source)))


def pseudo_text(written: str) -> str:
    """A checklist's own text in the pseudo-language; what stands in braces is kept."""
    parts = _PLACEHOLDER.split(written)
    return "".join(part if part[:1] == "{" else accented(part) for part in parts)


def written_in(value: object) -> Iterator[Message]:
    """Every message in a plan that is a checklist's own text, however deep it stands."""
    if isinstance(value, Message):
        if value.written:
            yield value
        yield from written_in(value.args)
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from written_in(getattr(value, name))
    elif isinstance(value, Mapping):
        yield from written_in(tuple(value.values()))
    elif isinstance(value, tuple | list):
        for each in value:
            yield from written_in(each)


def pseudo_words(holders: Iterable[object] = ()) -> Words:
    """The pseudo-language, with the texts of files that these plans and messages hold."""
    texts = (text for holder in holders for text in written_in(holder))
    checklists = {(text.id, text.written): pseudo_text(text.written) for text in texts}
    return Words(LANGUAGE, map(pseudo_file, message_files("en")), checklists=checklists)


UNITS = frozenset({"psi", "kPa", "bar", "min", "scfm"})
"""Units are written alike in every language."""
_ENGLISH = re.compile(r"[A-Za-z]{3,}")


def sources_in(value: object) -> Iterator[str]:
    """Every source that the messages of a plan cite: it is quoted as it was published."""
    if isinstance(value, Message):
        yield from (str(arg) for name, arg in value.args.items() if name == "source")
        yield from sources_in(value.args)
    elif isinstance(value, BaseModel):
        names = type(value).model_fields
        yield from (getattr(value, n) for n in names if n in ("source", "limit_source"))
        for name in names:
            yield from sources_in(getattr(value, name))
    elif isinstance(value, Mapping):
        yield from sources_in(tuple(value.values()))
    elif isinstance(value, tuple | list):
        for each in value:
            yield from sources_in(each)


def english_in(text: str, kept: Iterable[str] = ()) -> list[str]:
    """The English words of a text: three ASCII letters or more, and no unit.

    Args:
        text: what was drawn or said in the pseudo-language.
        kept: what may stand in it as it is: sources, ids, what people typed.
    """
    for each in sorted(filter(None, kept), key=len, reverse=True):
        text = text.replace(each, " ")
    return [word for word in _ENGLISH.findall(text) if word not in UNITS]
