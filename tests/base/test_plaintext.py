"""Characters that are not seen: which they are, and that no text keeps them where it must not."""

from __future__ import annotations

import json
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.base.plaintext import (
    code_point,
    hidden_in,
    is_hidden,
    one_line,
    some_lines,
    written_out,
)

TEXTS = st.text(st.characters(), max_size=60)
"""Any text, halves of characters too."""

# C0, DEL and C1 (ECMA-48); writing direction (UAX #9, section 2); no width (UAX #44,
# Default_Ignorable_Code_Point).
CONTROLS = [chr(code) for code in (*range(0x20), 0x7F, *range(0x80, 0xA0))]
DIRECTION = [chr(code) for code in (0x61C, 0x200E, 0x200F, *range(0x202A, 0x202F))]
ISOLATES = [chr(code) for code in range(0x2066, 0x206A)]
NO_WIDTH = ["\u00ad", "\u034f", "\u200b", "\u200c", "\u200d", "\u2060", "\u3164", "\ufeff"]
TAGS = [chr(code) for code in (0xE0001, 0xE0041, 0xE007F)]


@pytest.mark.parametrize(
    "character", [*CONTROLS, *DIRECTION, *ISOLATES, *NO_WIDTH, *TAGS, "\ud800"]
)
def test_what_is_not_seen_is_found_and_left_out(character: str) -> None:
    assert is_hidden(character)
    assert hidden_in(f"Pump{character}trailer") == character
    assert hidden_in(one_line(f"Pump{character}trailer")) == ""
    assert one_line(character) == some_lines(character) == ""


@pytest.mark.parametrize(
    "text", ["Pumpe 3", "naß, 5 °C", "٣ насос", "水泵 ３", "é", "🚛", "a b", ""]
)
def test_what_is_seen_stays(text: str) -> None:
    assert hidden_in(text) == ""
    assert one_line(text) == some_lines(text) == written_out(text) == text


def test_a_break_in_one_line_is_a_blank_and_in_some_lines_a_line() -> None:
    text = " Left\thub:\r\n\u202egrease \x1b[2J\n\nlost\u2028here "
    assert one_line(text) == "Left hub: grease [2J lost here"
    assert some_lines(text) == "Left hub:\ngrease [2J\n\nlost\nhere"


def test_a_character_is_named_as_people_look_it_up() -> None:
    assert code_point("\u202e") == "U+202E RIGHT-TO-LEFT OVERRIDE"
    assert code_point("\x07") == "U+0007"
    assert code_point("\U000e0041") == "U+E0041 TAG LATIN CAPITAL LETTER A"


@given(TEXTS)
def test_no_typed_text_keeps_a_control_or_a_format_character(text: str) -> None:
    for line in (one_line(text), *some_lines(text).split("\n")):
        assert not {unicodedata.category(c) for c in line} & {"Cc", "Cf", "Cs", "Zl", "Zp"}
        assert one_line(line) == " ".join(line.split())
    assert some_lines(some_lines(text)) == some_lines(text)


@given(TEXTS)
def test_a_document_written_out_means_the_same_and_can_be_printed_anywhere(text: str) -> None:
    document = written_out(json.dumps({"a": text}, ensure_ascii=False))
    assert json.loads(document) == {"a": text}
    document.encode()
    assert not any(is_hidden(c) for c in document)


def test_what_drives_a_terminal_is_written_out_and_lines_stay() -> None:
    """The first is "erase in display", ECMA-48 section 8.3.39."""
    assert written_out("\x1b[2Jgone\nnext\x9b1A") == r"\u001b[2Jgone" + "\n" + r"next\u009b1A"
    assert written_out("\U000e0041") == r"\udb40\udc41"
