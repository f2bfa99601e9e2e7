"""One language: messages turned into text, in the reader's units.

The message files are in Fluent's syntax; fluent.runtime resolves them, Babel knows how the language
writes numbers, plurals and lists, num2words how it spells numbers out. Besides what Fluent has,
a message may say

    { SPELLED($count) }    a number in words up to twelve: "two"; larger ones in digits
    { CAPITAL($text) }     a text with its first letter large
    { SMALL($text) }       a text with its first letter small
    { ITEMS($list) }       a list without an "and": "2 stop, 2 tail"
    { EITHER($list) }      a list of which one holds: "12 V or 24 V"
    { MONTH($number) }     a month, short: "May"
    { FIRST($text) }       its first word, by which a gender may be chosen: "luz" of "luz de freno"
    { REST($text) }        the rest of it, or of each text of a list: "de freno y de cola"

A language that lacks a message shows that of its fallback, and is then spoken as the fallback is: a
voice of one language does not read another.

A checklist's own text has two kinds of placeholders: `{axle}`, which an argument fills, and a
quantity in the checklist's units, `{110 psi}`, `{80 to 90 psi}`, `{1/4 in}`, which is shown in the
reader's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import Any, Literal

from babel import Locale
from babel.dates import get_month_names
from babel.lists import format_list
from fluent.runtime import FluentBundle, FluentResource, resolver
from num2words import num2words

from walkaround.base.message import Argument, Message, Quantity, Text, plainly
from walkaround.base.quantities import quantity_text
from walkaround.base.units import (
    AS_WRITTEN,
    WRITTEN_QUANTITY,
    Units,
    length_limit_text,
    number_of,
    pressure_text,
)
from walkaround.words.pronunciation import pronounced

MOST_SPELLED = 12
"""Larger numbers are easier read in digits; common practice, no source."""

# Where the countries that speak a language write numbers differently: those of the Americas. The
# rules, tables and gauges of this trade, and most Spanish speakers who work by them, write 2.5 with
# a point (CLDR, es_US and es_MX), and so do the quantities that people compare with what they see.
_LOCALES = {"es": "es_US"}

# An entry of a message file, up to the next one or a comment, and its name. Parsing all entries
# would take as long as all else at the start of a command, and a command says few of them.
_NAME = re.compile(r"-?[a-zA-Z][\w-]*")
_ENTRY = re.compile(rf"^({_NAME.pattern}) *=.*(?:\n(?![a-zA-Z#-]).*)*", re.MULTILINE)
_parsed = cache(FluentResource)

# Fluent refuses parts longer than this, lest a message made by strangers fill the memory. Message
# files come with the app; how long what people write may be is checked where it is read.
resolver.MAX_PART_LENGTH = 1_000_000


class Words:
    """A language and the units of who reads it.

    Calling it makes a text from a message's id: `words("hold-stop")`, `words("spot-axle", axle=2)`.
    """

    def __init__(
        self,
        language: str,
        sources: Iterable[str],
        units: Units = AS_WRITTEN,
        checklists: Mapping[tuple[str, str], str] | None = None,
        fallback: Words | None = None,
    ) -> None:
        """Take the texts of the message files.

        Args:
            language: a code that Babel knows, such as `en` or `es`.
            sources: the text of each message file of that language.
            units: in which quantities are shown.
            checklists: translations of checklists' own texts, by the message's id and what it was
                written as: another text than that is not translated.
            fallback: says what this language has no message for.
        """
        self.language = language
        self.units = units
        self._locale = _LOCALES.get(language, language)
        self._checklists = checklists or {}
        self._fallback = fallback
        self._unread = entries_of(sources)
        self.ids = frozenset(name for name in self._unread if not name.startswith("-"))
        functions: dict[str, Callable[[Any], Any]] = {
            "SPELLED": self._spelled,
            "CAPITAL": lambda text: capital(str(text)),
            "SMALL": lambda text: str(text)[:1].lower() + str(text)[1:],
            "ITEMS": lambda text: _ROW.join(_parts(text)),
            "EITHER": lambda text: self._list(_parts(text), "or"),
            "FIRST": lambda text: str(text).partition(" ")[0],
            "REST": lambda text: self.listed([part.partition(" ")[2] for part in _parts(text)]),
            "MONTH": lambda number: self.month(int(number)),
        }
        locale = self._locale.replace("_", "-")
        self._bundle = FluentBundle([locale], functions=functions, use_isolating=False)

    def shown_in(self, units: Units) -> Words:
        """Return the same language in other units."""
        if units == self.units:
            return self
        other = object.__new__(Words)
        other.__dict__ |= self.__dict__
        other.units = units
        other._fallback = self._fallback and self._fallback.shown_in(units)
        return other

    @property
    def lacking(self) -> int:
        """How many messages its fallback says for it."""
        return len(self._fallback.ids - self.ids) if self._fallback else 0

    @property
    def voice(self) -> Words:
        """The language that its texts are spoken in: its own if it lacks nothing."""
        return self._fallback if self._fallback and self.lacking else self

    def has(self, id_: str) -> bool:
        """Tell whether the language has this message; some are left out where they mean nothing."""
        return id_ in self.ids or bool(self._fallback and self._fallback.has(id_))

    def __call__(self, id_: str, /, **args: Argument) -> str:
        """Return the message of that id in words.

        Raises:
            LookupError: there is no such message, or one of its arguments is missing.
        """
        if self._fallback and id_ not in self.ids:
            return self._fallback(id_, **args)
        if id_ not in self.ids:
            raise LookupError(f"{self.language}: there is no message {id_}")
        self._read(id_)
        pattern = self._bundle.get_message(id_).value
        if pattern is None:
            raise LookupError(f"{self.language}: the message {id_} has no text")
        arguments = {name: self._argument(value) for name, value in args.items()}
        text, errors = self._bundle.format_pattern(pattern, arguments)
        if errors:
            raise LookupError(f"{self.language}: {id_}: {errors[0]}")
        return str(text)

    def _read(self, name: str) -> None:
        """Parse an entry that was not yet, and those it may name; threads may do so at once."""
        read, todo = set[str](), [name]
        while todo:
            if (entry := self._unread.get(each := todo.pop())) and each not in read:
                read.add(each)
                self._bundle.add_resource(_parsed(entry))
                todo += _NAME.findall(entry)
        for each in read:
            self._unread.pop(each, None)

    def spoken(self, text: str) -> str:
        """Write a text as a voice says it, numbers and units in words."""
        return pronounced(text, self.voice.language)

    def text(self, text: Text) -> str:
        """Put a text into words; a plain string is shown as it is.

        A record may come from a newer version or a stranger: a message that is not known here is
        shown by its id and what goes into it, and one that lacks something as it was written.
        """
        if isinstance(text, str):
            return text
        try:
            if not text.written:
                return self(text.id, **text.args)
            return self._filled(
                self._checklists.get((text.id, text.written), text.written), text.args
            )
        except LookupError:
            return plainly(text)

    def listed(self, parts: Sequence[Text]) -> str:
        """Write several texts as a list in a sentence: "front, rear and left"."""
        return self._list([self.text(part) for part in parts], "standard")

    def month(self, number: int) -> str:
        """Write a month, counted from 1, by its short name: "May"."""
        return str(get_month_names("abbreviated", locale=self._locale)[number])

    def row(self, parts: Iterable[Text]) -> str:
        """Write several texts one after the other, as in a table: "110 at 0 s, 109 at 30 s"."""
        return _ROW.join(self.text(part) for part in parts)

    def quantity(self, quantity: Quantity) -> str:
        """Write a number with its unit, in the reader's."""
        return quantity_text(quantity, self.units)

    def _argument(self, value: Argument) -> str | int | float:
        if isinstance(value, Quantity):
            return self.quantity(value)
        if isinstance(value, Message):
            return self.text(value)
        if isinstance(value, tuple):
            return _Listed(self, [str(self._argument(part)) for part in value])
        return value

    def _list(self, parts: Sequence[str], style: Literal["standard", "or"]) -> str:
        if self.language == "es" and len(parts) > 1:
            # Before its own sound "y" becomes "e", and "o" becomes "u"; CLDR leaves that to who
            # writes lists (ICU does so, Babel does not).
            *before, last = parts
            sound, other = (_LIKE_I, "e") if style == "standard" else (_LIKE_O, "u")
            if sound.match(last):
                return f"{_ROW.join(before)} {other} {last}"
        return format_list(parts, style=style, locale=self._locale)

    def _filled(self, template: str, args: Mapping[str, Argument]) -> str:
        """Return a checklist's text with its placeholders filled."""

        def fill(match: re.Match[str]) -> str:
            name = match[1]
            return str(self._argument(args[name])) if name in args else self._converted(name)

        return _PLACEHOLDER.sub(fill, template)

    def _converted(self, quantity: str) -> str:
        """Write a checklist's quantity or range in the reader's units."""
        match = WRITTEN_QUANTITY.fullmatch(quantity)
        if match is None:
            raise LookupError(f"nothing fills {{{quantity}}}")
        unit = self.units.length if match["unit"] == "in" else self.units.pressure
        first, last = match["first"], f"{match['last']} {match['unit']}"
        if unit != match["unit"]:
            first = first and self._shown(first, match["unit"]).partition(" ")[0]
            last = self._shown(match["last"], match["unit"])
        if first is None:
            return last
        link = match["link"]
        return f"{first}{link if link == '-' else self._link(link.strip())}{last}"

    def _shown(self, number: str, unit: str) -> str:
        """Write a checklist's quantity in the reader's units."""
        if unit == "in":
            return length_limit_text(number_of(number), self.units.length)
        return pressure_text(number_of(number), self.units.pressure)

    def _link(self, link: str) -> str:
        """Return what stands between the two ends of a range: "80 to 90 psi"."""
        return f" {self('range-link', link=link)} "

    def _spelled(self, number: Any) -> str:
        value = int(number)
        spelled = 0 < value <= MOST_SPELLED
        return str(num2words(value, lang=self.language)) if spelled else str(value)


class _Listed(str):
    """A list as it reads with "and", and its parts for what joins them otherwise."""

    parts: Sequence[str]

    def __new__(cls, words: Words, parts: Sequence[str]) -> _Listed:
        listed = super().__new__(cls, words.listed(parts))
        listed.parts = parts
        return listed


def entries_of(sources: Iterable[str]) -> dict[str, str]:
    """Return each entry of message files by its name, unparsed; that of a term begins with `-`."""
    entries = (match for source in sources for match in _ENTRY.finditer(source))
    return {match[1]: match[0] for match in entries}


def language_name(language: str) -> str:
    """Tell what those who speak a language call it: "Español"."""
    return capital(Locale.parse(language).get_language_name(language) or language)


def capital(text: str) -> str:
    """Write a text with its first letter large."""
    return text[:1].upper() + text[1:]


def _parts(text: Any) -> Sequence[str]:
    return text.parts if isinstance(text, _Listed) else [str(text)]


# CLDR has a list without an "and" for few languages, and of Spanish only its end; all that is shown
# here is parted by commas.
_ROW = ", "
_LIKE_I = re.compile(r"(?i)h?i(?!e)|h?í")
_LIKE_O = re.compile(r"(?i)h?[oó]|8|11(?!\d)")
_PLACEHOLDER = re.compile(r"\{([^{}]+)\}")
