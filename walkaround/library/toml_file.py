"""Reading a TOML file within limits, with one clear problem if that is not possible."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from stat import S_ISREG
from typing import Any

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message

# A checklist is a few pages of text; a larger file is none.
MOST_FILE_BYTES = 400_000
# The time and memory that tomllib needs grow with the square of a key's parts: more parts than this
# make it slow, thousands of parts take all the memory there is.
_MOST_PARTS = 16
_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_LONG_KEY = re.compile(
    rf"(?:^|[\[{{,])[ \t]*{_PART}(?:[ \t]*\.[ \t]*{_PART}){{{_MOST_PARTS}}}", re.M
)


def read_table(path: Path) -> dict[str, Any]:
    """Read the TOML table in a file.

    Raises:
        InputError: the file cannot be read, is too large, or is no TOML.
    """
    return table_in(file_bytes(path), str(path))


def table_in(data: bytes, where: str) -> dict[str, Any]:
    """Parse the content of a TOML file.

    Args:
        data: the content.
        where: the path of the file, for problems.

    Raises:
        InputError: it is no TOML, or is empty.
    """
    table = _parsed(_text(data, where), where)
    if not table:
        raise _unreadable(where, "", "holds-nothing")
    return table


def file_bytes(path: Path) -> bytes:
    """Read the content of a file.

    Raises:
        InputError: the file cannot be read, or is larger than MOST_FILE_BYTES.
    """
    where = str(path)
    try:
        status = path.stat()
        if not S_ISREG(status.st_mode):  # a pipe or a device may never come to an end
            raise _unreadable(where, "", "no-plain-file")
        if status.st_size > MOST_FILE_BYTES:
            what = message("problem-larger-than", kb=MOST_FILE_BYTES // 1000)
            raise InputError([Problem(where, "", what, message("problem-split-it"))])
        return path.read_bytes()
    except FileNotFoundError:
        raise _unreadable(where, "", "no-such-file") from None
    except OSError as error:
        what = message("problem-cannot-be-read", reason=str(error.strerror))
        mend = message("problem-check-that-you-may-read-it")
        raise InputError([Problem(where, "", what, mend)]) from None


def _text(data: bytes, where: str) -> str:
    if b"\0" in data:
        raise _unreadable(where, "", "no-text-file")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        raise _unreadable(where, f"line {before.count(10) + 1}", "not-utf-8") from None


def _parsed(text: str, where: str) -> dict[str, Any]:
    if long := _LONG_KEY.search(text):
        line = f"line {text.count(chr(10), 0, long.end()) + 1}"
        raise _unreadable(where, line, "key-of-too-many-parts")
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise _unreadable(where, "", "tables-nested-too-deep") from None
    except ValueError as error:
        if "integer string conversion" in str(error):
            raise _unreadable(where, "", "number-too-long") from None
        # tomllib says "Invalid value (at line 3, column 9)".
        match = re.fullmatch(r"(?s)(.*) \(at (line \d+, column \d+|end of document)\)", str(error))
        error_text, place = match.groups() if match else (str(error), "")
        error_text = " ".join(error_text.split()).rstrip(".")
        what = message("trouble-not-valid-toml", fault=error_text)
        mend = message("problem-correct-the-line")
        raise InputError([Problem(where, place, what, mend)]) from None


def _unreadable(where: str, place: str, why: str) -> InputError:
    """Return the error for a file that cannot be read; `why` is part of the message ids."""
    what, mend = message(f"file-{why}"), message(f"file-mend-{why}")
    return InputError([Problem(where, place, what, mend)])
