"""Reads the table in a TOML file, or says the one thing that keeps it from being read."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from stat import S_ISREG
from typing import Any

from walkaround.base.errors import InputError, Problem

# A checklist is a few pages of text; more is not one.
MOST_FILE_BYTES = 400_000
# The time and memory that tomllib needs grow with the square of a key's parts: a key of more than
# this makes it slow, one of thousands takes all the memory there is.
_MOST_PARTS = 16
_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_LONG_KEY = re.compile(
    rf"(?:^|[\[{{,])[ \t]*{_PART}(?:[ \t]*\.[ \t]*{_PART}){{{_MOST_PARTS}}}", re.M
)


def read_table(path: Path) -> dict[str, Any]:
    """The TOML table in a file; raises InputError with the one thing that keeps it from reading."""
    return table_in(file_bytes(path), str(path))


def table_in(data: bytes, where: str) -> dict[str, Any]:
    """The TOML table in what a file held; raises InputError as `read_table` does."""
    table = _parsed(_text(data, where), where)
    if not table:
        raise InputError([Problem(where, "", "holds nothing", "fill it in or delete it")])
    return table


def file_bytes(path: Path) -> bytes:
    """What a file holds; raises InputError when it cannot be opened or is far too large."""
    where = str(path)
    try:
        about = path.stat()
        if not S_ISREG(about.st_mode):  # a pipe or a device may never come to an end
            raise OSError(0, "it is no file")
        if about.st_size > MOST_FILE_BYTES:
            what = f"is larger than {MOST_FILE_BYTES // 1000} kB"
            raise InputError([Problem(where, "", what, "split it into smaller files")])
        return path.read_bytes()
    except FileNotFoundError:
        raise InputError([Problem(where, "", "there is no such file", "check the path")]) from None
    except OSError as error:
        what = f"cannot be read ({error.strerror})"
        mend = "check that it is a file you may read"
        raise InputError([Problem(where, "", what, mend)]) from None


def _text(data: bytes, where: str) -> str:
    if b"\0" in data:
        raise InputError([Problem(where, "", "is not a text file", "write it as TOML text")])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line = f"line {before.count(10) + 1}"
        what = "holds characters that are not UTF-8"
        raise InputError([Problem(where, line, what, "save it as UTF-8 text")]) from None


def _parsed(text: str, where: str) -> dict[str, Any]:
    if long := _LONG_KEY.search(text):
        line = f"line {text.count(chr(10), 0, long.end()) + 1}"
        raise InputError([Problem(where, line, "a key has too many parts", "flatten the tables")])
    try:
        return tomllib.loads(text)
    except RecursionError:
        problem = Problem(where, "", "tables are nested too deep", "flatten them")
    except ValueError as error:
        if "integer string conversion" in str(error):
            what, mend = "holds a number of thousands of digits", "write one of ordinary size"
            raise InputError([Problem(where, "", what, mend)]) from None
        # tomllib says "Invalid value (at line 3, column 9)".
        found = re.fullmatch(r"(?s)(.*) \(at (line \d+, column \d+|end of document)\)", str(error))
        said, place = found.groups() if found else (str(error), "")
        said = " ".join(said.split()).rstrip(".")
        what = f"this is not valid TOML ({said})"
        problem = Problem(where, place, what, "correct the line, quotes and brackets first")
    raise InputError([problem])
