"""What the command line prints: one document for each command, and its text for people."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from pathlib import Path
from textwrap import fill
from typing import Any

from walkaround.airhold.readings import Reading
from walkaround.airhold.verdict import Assessment
from walkaround.base.errors import Problem
from walkaround.lamps.required import Lamp, lamps_for, reflectors_for
from walkaround.lamps.wiring import Wiring, wire
from walkaround.library.load import Library
from walkaround.plan.steps import Plan, Step
from walkaround.records.walk_line import WalkLine
from walkaround.vehicle.model import vehicle_class
from walkaround.words.language import Words
from walkaround.words.prompts import prompt


def plan_document(plan: Plan, library: Library, words: Words) -> dict[str, Any]:
    """A vehicle's class, lamps, reflectors, rounds and steps."""
    vehicle = plan.vehicle
    lamps = lamps_for(vehicle, library.checklists)
    wiring = wire(vehicle, lamps, library.connectors)
    return {
        "vehicle": vehicle.id,
        "class": vehicle_class(vehicle),
        "power": plan.power,
        "rounds": plan.rounds,
        "lamps": [_lamp(lamp, wiring, words) for lamp in lamps],
        "reflectors": [
            _reflector(lamp, words) for lamp in reflectors_for(vehicle, library.checklists)
        ],
        "steps": [_step(plan, step, words) for step in plan.steps],
    }


def _reflector(lamp: Lamp, words: Words) -> dict[str, Any]:
    return {
        "id": lamp.id,
        "kind": lamp.kind,
        "name": words.text(lamp.name),
        "colour": lamp.colour,
        "place": lamp.place,
        "housing": lamp.housing,
        "required": lamp.required,
        "source": lamp.source,
        "provenance": lamp.provenance,
    }


def _lamp(lamp: Lamp, wiring: Wiring, words: Words) -> dict[str, Any]:
    return _reflector(lamp, words) | {
        "circuit": wiring.circuit_of[lamp.id],
        "cluster": wiring.cluster_of[lamp.id],
    }


def _step(plan: Plan, step: Step, words: Words) -> dict[str, Any]:
    return {
        "id": step.id,
        "kind": step.kind,
        "part": step.part,
        "title": words.text(step.title),
        "round": step.round,
        "spot": step.spot,
        "circuits_on": list(step.circuits_on),
        "expect": dict(step.expect),
        "meter_first": words.text(step.meter_first),
        "say": prompt(step, plan.power, "short", words).say,
        "source": step.source,
        "provenance": step.provenance,
    }


def plan_text(document: dict[str, Any]) -> str:
    """The same for people: one line a lamp, one paragraph a step."""
    lines = [
        f"{document['vehicle']}: class {document['class']}, {len(document['lamps'])} lamps, "
        f"{len(document['reflectors'])} reflectors, {document['rounds']} round(s)",
        "",
        "Lamps",
        *(
            f"  {lamp['name']}, {lamp['colour']}, circuit {lamp['circuit']} ({lamp['source']}, "
            f"{lamp['provenance']})"
            for lamp in document["lamps"]
        ),
        "",
        "Steps",
        *(
            _paragraph(f"  {at:2} {step['title']}: {step['say']}")
            for at, step in enumerate(document["steps"], 1)
        ),
    ]
    return "\n".join(lines)


def _paragraph(text: str) -> str:
    return fill(text, 100, subsequent_indent=" " * 5, break_on_hyphens=False)


def hold_document(
    found: Assessment, limit_psi_per_min: float, readings: Sequence[Reading]
) -> dict[str, Any]:
    """What an air hold came to, the limit, and how long it was held."""
    return asdict(found) | {
        "limit_psi_per_min": limit_psi_per_min,
        "readings": len(readings),
        "held_s": readings[-1][0] - readings[0][0],
    }


_HOLD_WORDS: Mapping[str, str] = {
    "within": "Within the limit.",
    "over": "Over the limit.",
    "undecided": "Undecided: read the gauge again in {hold_more_s:.0f} s.",
    "given up": "Undecided: the plain rule result stands.",
    "cooling": "Settling: this looks like air that is still cooling; let it settle, hold again.",
    "rising": "Settling: the gauge rises; shut the source valve, let it settle, hold again.",
}


def hold_text(document: Mapping[str, Any]) -> str:
    """The same for people: the verdict, the rate with its bounds, the plain rule beside it."""
    over = document["verdict"] == "undecided" and not document["hold_more_s"]
    words = _HOLD_WORDS["given up" if over else document["reason"] or document["verdict"]]
    return "\n".join(
        (
            words.format(**document),
            "Rate {rate_psi_per_min:z.2f} psi/min, bounds {low_psi_per_min:z.2f} to "
            "{high_psi_per_min:z.2f}, limit {limit_psi_per_min:g} "
            "({readings} readings in {held_s:g} s).".format(**document),
            "Plain rule, first reading to last: {rule_rate_psi_per_min:z.2f} psi/min, "
            "{rule_verdict}.".format(**document),
        )
    )


def check_document(files: Iterable[Path], problems: Iterable[Problem]) -> dict[str, Any]:
    """The files that were checked, and every problem in them."""
    return {
        "files": [str(path) for path in files],
        "problems": [asdict(problem) for problem in problems],
    }


def check_text(problems: Sequence[Problem]) -> str:
    """The same for people: one line a problem."""
    return "\n".join(map(str, problems)) or "No problems."


# How the list knows a stale line; the computer's own clock, which tells nobody else a time.
_NOT_TOLD = frozenset({"stamp", "began_boot", "began_s", "last_boot", "last_s"})


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


def walks_text(document: dict[str, Any]) -> str:
    """The same for people: one line a walk."""
    lines = [
        f"{walk['id']}  {walk['vehicle_name']}  {walk['answered']}/{walk['steps']} answered, "
        f"{len(walk['open_defects'])} open defect(s), {walk['phase']}"
        f"{', partial' if walk['partial'] else ''}"
        f"{': ' + walk['trouble'] if walk['trouble'] else ''}"
        for walk in document["walks"]
    ]
    if not lines:
        return "No walk can be listed." if "unread" in document else "No walk is recorded here yet."
    return "\n".join(lines)
