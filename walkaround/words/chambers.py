"""The brake chamber at a wheel end in words: what it is, how sure that is, its stroke's limit."""

from __future__ import annotations

from collections.abc import Iterable

from walkaround.base.message import Argument, Message, Quantity, message
from walkaround.walk.chambers import chamber_at, chamber_words, comes_long, in_doubt, limit_at
from walkaround.walk.state import Walk
from walkaround.words.language import Words


def chambers_text(walk: Walk, ends: Iterable[str], words: Words) -> list[str]:
    """Write the chamber at each of these wheel ends, as it was read or as the file has it."""
    return [
        words(
            "chamber-at-end",
            side=_side(end),
            chamber=chamber_words(walk, end),
            read=_read(walk, end),
        )
        for end in ends
    ]


def _read(walk: Walk, end: str) -> str:
    chamber = walk.chambers.get(end)
    if chamber is None:
        return "no"
    return "yes" if chamber.type or chamber.actuator == "other" else "unread"


def chamber_tile(walk: Walk, end: str, words: Words) -> tuple[str, str]:
    """List the chamber at a wheel end in few words, and the limit of its stroke that counts now."""
    chamber = words("chamber-tile", side=_side(end), chamber=_chamber_short(walk, end))
    most_in = limit_at(walk, end)
    if most_in is None:
        return chamber, words("chamber-no-limit")
    source = "doubt" if in_doubt(walk, end) else "read" if end in walk.chambers else "file"
    limit = Quantity(value=most_in, unit="in")
    return chamber, words("chamber-limit", **{"from": source}, limit=limit)


def chamber_said(walk: Walk, end: str, words: Words) -> str:
    """Tell what is said once a chamber is told: "Left: clamp 24, standard. Limit 1 3/4 in."."""
    most_in = limit_at(walk, end)
    args: dict[str, Argument] = {"side": _side(end), "chamber": _chamber_short(walk, end)}
    if most_in is None:
        return words("chamber-said-without-limit", **args)
    return words("chamber-said", **args, limit=Quantity(value=most_in, unit="in"))


def _chamber_short(walk: Walk, end: str) -> Message:
    chamber = chamber_at(walk, end)
    assert walk.plan is not None
    if not chamber.type and chamber.actuator != "other":
        return message(f"chamber-short-{'unread' if end in walk.chambers else 'unfiled'}")
    class_ = "none"
    if in_doubt(walk, end) and chamber.type:
        class_ = "doubt"
    elif chamber.long_stroke:
        class_ = "long" if chamber.rated_stroke_in is None else "rated"
    elif comes_long(walk.plan, chamber.actuator, chamber.type):
        class_ = "standard"
    rated = Quantity(value=chamber.rated_stroke_in or 0.0, unit="in")
    args: dict[str, Argument] = {"actuator": chamber.actuator, "type": chamber.type}
    return message("chamber-short", **args, **{"class": class_}, rated=rated)


def _side(end: str) -> Message:
    return message(f"side-{end.rpartition('_')[2]}")
