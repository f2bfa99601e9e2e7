"""The fonts of screen and page hold the letters of the languages that crews write.

Letters: the main exemplar characters of Unicode CLDR for Spanish, German, French, Polish,
Vietnamese, Russian and Ukrainian (from memory).
"""

from __future__ import annotations

import string
from importlib.resources import files
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from walkaround.disk.locations import assets

_LOWER = {
    "Spanish": "áéíñóúü¿¡",
    "German": "äöüß",
    "French": "àâæçéèêëîïôœùûüÿ",
    "Polish": "ąćęłńóśźż",
    "Vietnamese": ("àảãáạăằẳẵắặâầẩẫấậđèẻẽéẹêềểễếệìỉĩíịòỏõóọôồổỗốộơờởỡớợùủũúụưừửữứựỳỷỹýỵ"),
    "Russian": "абвгдеёжзийклмнопрстуфхцчшщъыьэюя",
    "Ukrainian": "абвгґдеєжзиіїйклмнопрстуфхцчшщьюя",
}
SCREEN = Path(str(files("flet_web"))) / "web" / "assets" / "fonts" / "roboto.woff2"
PAGE = tuple(sorted((assets() / "fonts").glob("*.ttf")))


@pytest.mark.parametrize("path", [SCREEN, *PAGE], ids=lambda path: path.stem)
def test_a_font_holds_every_letter(path: Path) -> None:
    with TTFont(path) as font:
        has = set(font.getBestCmap())
    letters = "".join(low + low.upper() for low in _LOWER.values())
    wanted = set(letters + string.ascii_letters + string.digits + string.punctuation)
    assert "".join(sorted(letter for letter in wanted if ord(letter) not in has)) == ""


def test_fonts_are_free_to_hand_on() -> None:
    assert "DejaVu" in (assets() / "fonts" / "LICENSE.txt").read_text(encoding="utf-8")
    assert len(PAGE) == 2
    with TTFont(SCREEN) as font:
        # Name 13 is the license, OpenType specification, "name" table.
        assert "Apache License, Version 2.0" in font["name"].getDebugName(13)
