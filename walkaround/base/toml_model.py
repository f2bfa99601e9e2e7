"""The base of every model read from a TOML file that people write, and its errors in words.

Pydantic finds all faults of a file at once; `problems_of` turns each into one `Problem` that
names the key, says what is wrong in plain words and how to mend it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from difflib import get_close_matches
from typing import Annotated, Any, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainValidator, ValidationError
from pydantic_core import ErrorDetails, PydanticCustomError

from walkaround.base.errors import Problem
from walkaround.base.message import Message, Text, message

MOST_SAID = 400
"""Faults of one file that are put into words: each takes time, and nobody reads more."""
_LONGEST_NAME = 40


class Written(BaseModel):
    """A table in a file that people write: unknown keys are faults, values never change."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


def _day(value: object) -> object:
    """Take a quoted ISO date for a date; leave everything else for pydantic to judge."""
    try:
        return date.fromisoformat(value) if isinstance(value, str) else value
    except ValueError:
        return value


def _number(value: object) -> object:
    """Turn away whole numbers too long for a float, which would overflow."""
    too_long = isinstance(value, int) and not isinstance(value, bool) and abs(value) > 10**15
    return str(value)[:20] if too_long else value


def _text(value: object) -> Text:
    """Take a text; no table of a file can be a message."""
    if isinstance(value, str | Message):
        return value
    raise PydanticCustomError("string_type", "Input should be a valid string")


# Strict, so that `true` is no number and "12" no voltage.
Number = Annotated[float, BeforeValidator(_number), Field(strict=True, allow_inf_nan=False)]
Positive = Annotated[float, BeforeValidator(_number), Field(strict=True, allow_inf_nan=False, gt=0)]
Flag = Annotated[bool, Field(strict=True)]
Day = Annotated[date, BeforeValidator(_day), Field(strict=True)]
FileText = Annotated[Text, PlainValidator(_text)]
"""A text that a file writes, for people; a message once the file is read."""
Id = Annotated[str, Field(pattern=r"^[a-z0-9_]+$")]


def problems_of(error: ValidationError, where: Text) -> list[Problem]:
    """Say each fault that pydantic found in one plain sentence.

    Args:
        error: what validating a `Written` model raised.
        where: the file it was read from.
    """
    root = next((model for model in _models() if model.__name__ == error.title), None)
    return [
        _problem(detail, where, root)
        for detail in error.errors(include_url=False)[:MOST_SAID]
        # No fault of the file: a default that would have come from a faulty value.
        if detail["type"] != "default_factory_not_called"
    ]


def written_key(path: tuple[int | str, ...]) -> str:
    """Write a place in a file as people count: `step 4.short`, `brakes.axles 2.type`."""
    key = ""
    for part in path:
        if part == "[key]":  # pydantic's mark that the key, not its value, is at fault
            continue
        word = f"{part + 1}" if isinstance(part, int) else _cut(part)
        key += f" {word}" if isinstance(part, int) else f".{word}" if key else word
    return key


def nearest(word: str, candidates: Iterator[str] | list[str] | tuple[str, ...]) -> Message:
    """Tell what to write instead of a word nobody knows: the closest known one, or all of them."""
    names = sorted(candidates)
    close = get_close_matches(word, names, n=1)
    if close:
        return message("problem-perhaps", name=close[0])
    return message("problem-use-one-of", names=tuple(names))


def _problem(detail: ErrorDetails, where: Text, root: type[Written] | None) -> Problem:
    kind, path = detail["type"], detail["loc"]
    what: Text
    mend: Text
    say = _SAY.get(kind) or _SAY_TYPE.get(kind.removesuffix("_type"))
    if kind == "extra_forbidden":
        what = message("trouble-no-such-key")
        mend = nearest(str(path[-1]), _keys_at(root, path[:-1]))
    elif say:
        what, mend = say(detail)
    else:
        # No shipped file can have this fault, so it is told in the words of pydantic.
        fault = detail["msg"].rstrip(".")
        what = message("problem-other-fault", value=_shown(detail["input"]), fault=fault)
        mend = message("problem-correct-the-value")
    return Problem(where, written_key(path), what, mend)


def _shown(value: object) -> Text:
    """Write a value as it stands in the file, short enough for a sentence."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Mapping):
        return message("problem-value-table")
    if isinstance(value, list | tuple):
        return message("problem-value-list")
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return _cut(" ".join(text.split()))


def _cut(text: str) -> str:
    """Cut a text as it stands in the file, short enough for a sentence."""
    return text if len(text) <= _LONGEST_NAME else f"{text[: _LONGEST_NAME - 4]}..."


def _context(detail: ErrorDetails) -> Mapping[str, Any]:
    return detail.get("ctx", {})


def _missing(detail: ErrorDetails) -> _Fault:
    key = str(detail["loc"][-1])
    return message("problem-is-missing"), message("problem-add-the-key", key=key)


def _not_one_of(detail: ErrorDetails) -> _Fault:
    expected = str(_context(detail)["expected"]).replace("'", "").replace(" or ", ", ").split(", ")
    value = detail["input"]
    what = message("problem-not-allowed", value=_shown(value))
    if isinstance(value, str):
        return what, nearest(value, expected)
    return what, message("problem-use-one-of", names=tuple(expected))


def _needs_kind(kind: str) -> Callable[[ErrorDetails], _Fault]:
    """Make the problem of a value where another kind is needed."""
    return lambda detail: (
        message(f"problem-needs-{kind}", value=_shown(detail["input"])),
        message(f"problem-write-{kind}"),
    )


def _bound(side: str, limit: str) -> Callable[[ErrorDetails], _Fault]:
    def say(detail: ErrorDetails) -> _Fault:
        bound = f"{_context(detail)[limit]:g}"
        what = message("problem-is", value=_shown(detail["input"]))
        return what, message(f"problem-write-{side}", bound=bound)

    return say


# What is wrong with a value, and how to mend it.
_Fault = tuple[Message, Message]
_SAY: dict[str, Callable[[ErrorDetails], _Fault]] = {
    "missing": _missing,
    "literal_error": _not_one_of,
    "greater_than": _bound("above", "gt"),
    "greater_than_equal": _bound("not-below", "ge"),
    "less_than_equal": _bound("not-above", "le"),
    "finite_number": _needs_kind("finite-number"),
    "string_pattern_mismatch": _needs_kind("id"),
}
_SAY_TYPE = {
    "string": _needs_kind("text"),
    "float": _needs_kind("number"),
    "int": _needs_kind("whole-number"),
    "bool": _needs_kind("true-or-false"),
    "date": _needs_kind("date"),
    "tuple": _needs_kind("list"),
    "model": _needs_kind("table"),
}


def _models() -> Iterator[type[Written]]:
    models: list[type[Written]] = [Written]
    for model in models:
        models += model.__subclasses__()
        yield model


def _keys_at(root: type[Written] | None, path: tuple[int | str, ...]) -> list[str]:
    """Return the keys that the model at this place of a file knows, spelled as in the file."""
    model = root
    for part in path:
        if isinstance(part, str) and model is not None:
            field = {_file_key(model, name): f for name, f in model.model_fields.items()}[part]
            model = next(_models_in(field.annotation), None)
    return [_file_key(model, name) for name in model.model_fields] if model else []


def _file_key(model: type[Written], name: str) -> str:
    alias = model.model_fields[name].validation_alias
    return alias if isinstance(alias, str) else name


def _models_in(annotation: Any) -> Iterator[type[Written]]:
    if isinstance(annotation, type) and issubclass(annotation, Written):
        yield annotation
    for part in get_args(annotation):
        yield from _models_in(part)
