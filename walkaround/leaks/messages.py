"""Leaks, places and things to do about them as messages."""

from __future__ import annotations

import re

from walkaround.base.message import Message, message
from walkaround.leaks.plumbing import Source
from walkaround.leaks.trials import AirTrial
from walkaround.leaks.variants import AirPart

_END = re.compile(r"(?P<what>[a-z]*)_?axle_(?P<axle>\d+)_(?P<side>left|right)")


def part_named(part: AirPart) -> Message:
    """Name a part: "service diaphragm, axle 1, left end"."""
    if at := _END.fullmatch(part.place):
        return message(f"leaks-part-{_hyphened(part.kind)}", end=_end(at))
    return message(f"leaks-part-{_hyphened('_'.join(filter(None, part)))}")


def why_leak(part: AirPart) -> Message:
    """Say why this part would leak so."""
    if at := _END.fullmatch(part.place):
        return message(f"leaks-why-{_hyphened(part.kind)}", end=_end(at))
    return message(f"leaks-why-{_hyphened('_'.join(filter(None, part)))}")


def place_named(place: str) -> Message:
    """Name a place at which something is heard."""
    if at := _END.fullmatch(place):
        return message(f"leaks-place-{at['what']}-at", end=_end(at))
    return message(f"leaks-place-{_hyphened(place)}")


def end_named(place: str) -> Message:
    """Name the wheel end of a place that is at one."""
    at = _END.fullmatch(place)
    assert at is not None
    return _end(at)


def air_trial_said(trial: AirTrial, source: Source) -> Message:
    """Say what to do."""
    match trial.what:
        case "listen" if trial.brakes == "dumped":
            return message(f"leaks-listen-dumped-{source}")
        case "listen":
            return message(f"leaks-listen-{trial.brakes}")
        case "soap":
            return message(f"leaks-soap-{trial.brakes}", place=place_named(trial.place))
        case "plug":
            return message(f"leaks-plug-{trial.place}")
        case "hold":
            return message(f"leaks-hold-{source}")


def air_outcome_said(trial: AirTrial, outcome: str) -> Message:
    """Say what is found."""
    if trial.what == "listen":
        return place_named(outcome)
    return message(f"leaks-outcome-{outcome}")


def _end(at: re.Match[str]) -> Message:
    side = message(f"side-{at['side']}")
    return message("brake-wheel-end", axle=int(at["axle"]), side=side)


def _hyphened(id_: str) -> str:
    return id_.replace("_", "-")
