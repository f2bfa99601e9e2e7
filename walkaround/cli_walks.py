"""What `walkaround walks` prints: the walks recorded so far, as one document or for people."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from walkaround.base.message import message
from walkaround.records.walk_line import WalkLine
from walkaround.words.language import Words

_NOT_TOLD = frozenset({"stamp", "vin", "began_boot", "began_s", "last_boot", "last_s"})


def walks_document(lines: Iterable[WalkLine], unread: Sequence[str] = ()) -> dict[str, Any]:
    """The walks recorded, newest first; if some may be missing, `unread` says which and why."""
    missing = {"unread": list(unread)} if unread else {}
    return missing | {"walks": [_line(line) for line in lines]}


def _line(line: WalkLine) -> dict[str, Any]:
    return {
        name: value.isoformat() if isinstance(value, datetime) else value
        for name, value in line._asdict().items()
        if name not in _NOT_TOLD
    }


def walks_text(document: dict[str, Any], words: Words) -> str:
    """Write the same for people: one line a walk."""
    lines = [_walk_text(walk, words) for walk in document["walks"]]
    none = words("cli-no-walk-listed" if "unread" in document else "cli-no-walk")
    return "\n".join(lines) or none


def _walk_text(walk: Mapping[str, Any], words: Words) -> str:
    text = words(
        "cli-walk",
        id=walk["id"],
        name=walk["vehicle_name"],
        answered=walk["answered"],
        steps=walk["steps"],
        defects=len(walk["open_defects"]),
        phase=message(f"cli-phase-{walk['phase']}"),
        ended="partial" if walk["partial"] else "whole",
    )
    return (
        words("cli-walk-in-trouble", walk=text, trouble=walk["trouble"])
        if walk["trouble"]
        else text
    )
