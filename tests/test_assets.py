"""The page around the app: name, icons, loading screen, and Flet's own scripts untouched.

Sizes of the icons are read from the PNG header (W3C PNG, 11.2.2 IHDR).
"""

from __future__ import annotations

import json
import re
import struct
from pathlib import Path

import flet_web
import pytest

from walkaround.disk.locations import assets
from walkaround.drawing.palette import DARK, LIGHT

INDEX = (assets() / "index.html").read_text(encoding="utf-8")
MANIFEST = json.loads((assets() / "manifest.json").read_text(encoding="utf-8"))


def scripts(page: str) -> list[str]:
    """Every script of a page, its white space folded."""
    return [" ".join(found.split()) for found in re.findall(r"(?s)<script.*?</script>", page)]


def test_every_script_of_flets_own_page_is_kept_in_order() -> None:
    theirs = scripts((Path(flet_web.get_package_web_dir()) / "index.html").read_text("utf-8"))
    ours = scripts(INDEX)
    assert len(theirs) >= 4
    assert [script for script in ours if script in theirs] == theirs
    # Nothing from elsewhere, spoken answers, the share sheet, whether the device is still paired,
    # how soon to try again, sound long after a tap, frames while one plays, double touches, learnt
    # keys, no connection and in which language that is said, size of text, pinching, semantics.
    assert len(ours) == len(theirs) + 14


def test_the_server_finds_where_to_write_its_settings() -> None:
    assert INDEX.count("<!-- fletAppConfig -->") == 1
    assert '<base href="/">' in INDEX


def test_the_page_has_our_name_and_says_that_it_is_loading() -> None:
    assert "<title>walkaround</title>" in INDEX
    assert '<html lang="en">' in INDEX
    assert "walkaround is loading" in INDEX
    assert 'id="loading"' in INDEX  # what Flet's bootstrap takes away with the first frame
    assert "Flet application" not in INDEX


def test_the_app_is_installed_under_its_own_name_upright_and_alone() -> None:
    assert (MANIFEST["name"], MANIFEST["short_name"]) == ("walkaround", "walkaround")
    assert (MANIFEST["display"], MANIFEST["orientation"]) == ("standalone", "portrait-primary")


def test_colours_before_the_first_frame_are_those_of_the_theme() -> None:
    assert {MANIFEST["theme_color"], MANIFEST["background_color"]} == {LIGHT.page}
    for scheme, colours in (("light", LIGHT), ("dark", DARK)):
        meta = f'media="(prefers-color-scheme: {scheme})" content="{colours.page}"'
        assert meta in INDEX
        assert f"background: {colours.page}" in INDEX
        assert f"color: {colours.ink}" in INDEX


def size(path: Path) -> tuple[int, int]:
    head = path.read_bytes()[:24]
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    assert head[12:16] == b"IHDR"
    width, height = struct.unpack(">II", head[16:24])
    return width, height


@pytest.mark.parametrize("icon", MANIFEST["icons"], ids=lambda icon: str(icon["src"]))
def test_each_icon_is_there_in_the_size_it_says(icon: dict[str, str]) -> None:
    width, height = size(assets() / icon["src"])
    assert f"{width}x{height}" == icon["sizes"]


def test_every_file_the_page_names_is_there() -> None:
    named = re.findall(r'(?:href|src)="((?:icons/|favicon|manifest)[^"]*)"', INDEX)
    assert len(named) == 4
    for name in named:
        assert (assets() / name).is_file()
    assert {icon.get("purpose", "any") for icon in MANIFEST["icons"]} == {"any", "maskable"}


def test_a_page_fetches_the_icons_font_and_none_of_the_formulas() -> None:
    """Flet's own list makes a page fetch 23 fonts that nothing here is set in, before it draws."""
    listed = json.loads((assets() / "assets" / "FontManifest.json").read_text("utf-8"))
    theirs = Path(flet_web.get_package_web_dir()) / "assets"
    assert [
        each
        for each in json.loads((theirs / "FontManifest.json").read_text("utf-8"))
        if each["family"] == "MaterialIcons"
    ] == listed
    assert all((theirs / font["asset"]).exists() for each in listed for font in each["fonts"])
