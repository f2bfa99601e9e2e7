"""Files as strangers make them: sound ones changed a little or much, and bytes that are no file.

Used by the long check in tests/soak and by its short version; what is done with each kind of file
is in `taking.py`.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime
from typing import Any

import tomli_w
from hypothesis import strategies as st

Write = Callable[[Any], bytes]
Place = tuple[str | int, ...]

HIDING = "\x00\x07\x08\t\n\r\x1b\x7f\x85\x9b\xad\u200b\u200d\u202e\u2066\u2069\u2028\ufeff\u3164"
"""Characters that are not seen: C0 and C1 controls, direction, no width."""
TEXTS = (
    "", " ", "x" * 301, "x" * 5000, "../../beside", "/etc/passwd", "C:\\con", "con", "a" * 300,
    "<speak><break time='9s'/></speak>", "[[h@'loU]]", "{volts.__class__}", "{volts", "}", "{axle}",
    "{volts:>9999999999}",
    "=cmd|' /C calc'!A0", "<b>bold</b> **bold**", "%s%n", "\x1b[2J\x1b]0;x\x07",
    "true", "12", "2011-04-01", "é\u0301",
    "\U0001f69b", "\U000e0041", "нет", "١٢", "nan", "inf", "1e999",
)  # fmt: skip
NUMBERS = (
    0, 1, -1, 2, 3, 13, 255, 10**6, 10**9, 10**15, 10**16, -(10**16), 2**63, 2**64,
    10**400, -(10**400),
    0.0, -0.0, 0.1, 1e-300, 5e-324, 1e9, 1e15, 1e16, 1e300, -1e300,
    float("nan"), float("inf"), float("-inf"),
)  # fmt: skip
DAYS = (date.min, date(1899, 12, 31), date(2011, 4, 1), date.max, datetime(2011, 4, 1))


def leaves() -> st.SearchStrategy[Any]:
    """Values of any kind, most of them wrong anywhere."""
    hidden = st.builds(
        lambda before, odd, after: before + odd + after,
        st.text("ab ", max_size=3),
        st.sampled_from(HIDING),
        st.text("ab ", max_size=3),
    )
    numbers = st.one_of(st.sampled_from(NUMBERS), st.integers(), st.floats())
    texts = st.one_of(st.sampled_from(TEXTS), hidden, st.text(max_size=40))
    return st.one_of(texts, numbers, st.booleans(), st.sampled_from(DAYS), st.none())


def values(known: Sequence[Any]) -> st.SearchStrategy[Any]:
    """Anything: what stands elsewhere in sound files, leaves, lists and tables, deep or long."""
    deep = st.builds(_nested, st.integers(1, 60), st.booleans())
    short = st.sampled_from(("x", 1, 0.5, True, {}, []))
    many = st.builds(lambda each, times: [each] * times, short, st.sampled_from((2, 50, 1000)))
    some = st.one_of(
        st.lists(leaves(), max_size=4), st.dictionaries(st.text(max_size=8), leaves(), max_size=4)
    )
    return st.one_of(leaves(), st.sampled_from(known), deep, many, some)


def _nested(depth: int, lists: bool) -> Any:
    value: Any = 1
    for _ in range(depth):
        value = [value] if lists else {"a": value}
    return value


def places(tree: Any, here: Place = ()) -> Iterator[Place]:
    """Where anything stands in a document."""
    yield here
    inside = tree.items() if isinstance(tree, dict) else ()
    for key, value in enumerate(tree) if isinstance(tree, list) else inside:
        yield from places(value, (*here, key))


def at(tree: Any, place: Place) -> Any:
    for key in place:
        tree = tree[key]
    return tree


def put(tree: Any, place: Place, value: Any) -> Any:
    """The document with another value at a place."""
    if not place:
        return value
    changed: Any = dict(tree) if isinstance(tree, dict) else list(tree)
    changed[place[0]] = put(tree[place[0]], place[1:], value)
    return changed


@st.composite
def changed(draw: st.DrawFn, sound: Sequence[Any]) -> Any:
    """A sound document with a few things in it replaced, taken out, doubled or added."""
    tree = draw(st.sampled_from(sound))
    known = [at(other, place) for other in sound[:4] for place in places(other)][:400]
    for _ in range(draw(st.integers(1, 4))):
        place = draw(st.sampled_from([*places(tree)]))
        here = at(tree, place)
        how = draw(st.sampled_from(("replace", "replace", "remove", "double", "many", "add")))
        match how:
            case "remove" if place and isinstance(at(tree, place[:-1]), dict):
                without = {k: v for k, v in at(tree, place[:-1]).items() if k != place[-1]}
                tree = put(tree, place[:-1], without)
            case "double" | "many" if isinstance(here, list) and here:
                times = 1 if how == "double" else draw(st.sampled_from((10, 50, 500)))
                tree = put(tree, place, here + [draw(st.sampled_from(here))] * times)
            case "add" if isinstance(here, dict):
                key = draw(st.one_of(st.text(max_size=9), st.sampled_from([*here, "id"])))
                tree = put(tree, place, {**here, key: draw(values(known))})
            case _:
                tree = put(tree, place, draw(values(known)))
    return tree


@st.composite
def nudged(draw: st.DrawFn, sound: Sequence[Any]) -> Any:
    """A sound document with one number or text a little other, as an honest one may be."""
    tree = draw(st.sampled_from(sound))
    here = [p for p in places(tree) if type(at(tree, p)) in (int, float, str)]
    place = draw(st.sampled_from(here))
    value = at(tree, place)
    if isinstance(value, str):
        return put(tree, place, draw(st.sampled_from((f"{value}_2", "own", value.upper()))))
    return put(tree, place, type(value)(value * draw(st.floats(0.5, 2))))


@st.composite
def torn(draw: st.DrawFn, sound: Sequence[bytes]) -> bytes:
    """A sound file's bytes with some flipped, cut, doubled or put in, or in another encoding."""
    data = bytearray(draw(st.sampled_from(sound)))
    odd = st.one_of(
        st.binary(max_size=8),
        st.sampled_from((b"\0", b"\xef\xbb\xbf", b"\xff\xfe", b"\xed\xa0\x80", b"[" * 2000)),
        st.sampled_from((b"a." * 3000, b"9" * 5000, b"{" * 2000, b"\x1f\x8b", b"PK\x03\x04")),
    )
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(data)))
        match draw(st.sampled_from(("flip", "cut", "put", "double", "swap", "encode", "end"))):
            case "flip" if start < len(data):
                data[start] ^= draw(st.integers(1, 255))
            case "cut":
                del data[start : start + draw(st.integers(1, 200))]
            case "put":
                data[start:start] = draw(odd)
            case "double":
                data[start:start] = data[start : start + draw(st.integers(1, 200))]
            case "swap":
                data = data[start:] + data[:start]
            case "encode":
                codec = draw(st.sampled_from(("utf-16", "utf-32", "latin-1", "utf-7", "utf-8-sig")))
                data = bytearray(bytes(data).decode(errors="ignore").encode(codec, "ignore"))
            case _:
                del data[start:]
    return bytes(data)


def large() -> st.SearchStrategy[bytes]:
    """A part over and over, up to more than any file may have."""
    parts = st.sampled_from(
        (b"[[a]]\n", b"[[step]]\nid='a'\n", b"a=", b"a.", b"1,", b"[", b'{"a":', b"\n", b'"x",')
    )
    heads = st.sampled_from((b"", b"a=[", b"seconds,psi\n", b'{"about":{"1":'))
    times = st.sampled_from((1_000, 30_000, 300_000))
    return st.builds(lambda head, part, n: head + part * n, heads, parts, times)


def files(sound: Sequence[Any], write: Write) -> st.SearchStrategy[bytes]:
    """Files of one kind: sound documents changed, their bytes torn, and what was never one."""
    written = [write(each) for each in sound]
    changes = changed(sound).map(write)
    share = [changes] * 5 + [nudged(sound).map(write)] * 2 + [torn(written)] * 2 + [st.binary()]
    rarely_large = st.integers(0, 40).flatmap(lambda n: changes if n else large())
    return st.one_of(*share, rarely_large)


def as_toml(tree: Any) -> bytes:
    """A document as TOML; what TOML has no way to write is written as nearly as can be."""
    table = _without_none(tree) if isinstance(tree, dict) else {"a": _without_none(tree)}
    return tomli_w.dumps(table).encode("utf-8", "surrogatepass")


def _without_none(tree: Any) -> Any:
    if isinstance(tree, dict):
        return {str(key): _without_none(value) for key, value in tree.items()}
    if isinstance(tree, list):
        return [_without_none(value) for value in tree]
    return "" if tree is None else tree


def as_json(tree: Any) -> bytes:
    """A document as JSON, with NaN and Infinity as Python writes them."""
    return json.dumps(tree, default=str).encode()
