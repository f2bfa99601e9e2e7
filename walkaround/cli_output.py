"""What the command line prints: one document for each command, and its text for people."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from textwrap import fill
from typing import Any

from walkaround.airhold.readings import Log
from walkaround.airhold.verdict import Assessment
from walkaround.base.errors import Problem
from walkaround.base.message import Message, message
from walkaround.base.units import Units
from walkaround.lamps.required_lamps import Lamp, lamps_for, reflectors_for
from walkaround.lamps.wiring import Wiring, wire
from walkaround.lamps.wiring_document import USUAL
from walkaround.library.load import Library
from walkaround.plan.steps import Plan, Step
from walkaround.rules.checklist import Wording
from walkaround.vehicle.model import vehicle_class
from walkaround.words.air_hold import doubt, plain_rule, rate_words, span_words
from walkaround.words.language import Words
from walkaround.words.problems import problem_text
from walkaround.words.prompts import prompt


def plan_document(
    plan: Plan, library: Library, words: Words, wording: Wording = "short"
) -> dict[str, Any]:
    """Return a vehicle's class, lamps, reflectors, rounds and steps, in this wording."""
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
        "steps": [_step(plan, step, words, wording) for step in plan.steps],
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
        "doubt": lamp.doubt,
    }


def _lamp(lamp: Lamp, wiring: Wiring, words: Words) -> dict[str, Any]:
    return _reflector(lamp, words) | {
        "circuit": wiring.circuit_of[lamp.id],
        "cluster": wiring.cluster_of[lamp.id],
    }


def _step(plan: Plan, step: Step, words: Words, wording: Wording) -> dict[str, Any]:
    return {
        "id": step.id,
        "kind": step.kind,
        "part": step.part,
        "title": words.text(step.title),
        "round": step.round,
        "spot": step.spot,
        "circuits_on": list(step.circuits_on),
        "pins": words.text(step.pins),
        "expect": dict(step.expect),
        "meter_first": words.text(step.meter_first),
        "say": prompt(step, plan.power, wording, words).say,
        "source": step.source,
        "provenance": step.provenance,
        "doubt": step.doubt,
    }


def plan_text(document: dict[str, Any], words: Words) -> str:
    """Write the same for people: one line a lamp, one paragraph a step."""
    head = words(
        "cli-plan",
        vehicle=document["vehicle"],
        class_=document["class"],
        lamps=len(document["lamps"]),
        reflectors=len(document["reflectors"]),
        rounds=document["rounds"],
    )
    lamps = [_lamp_text(lamp, words) for lamp in document["lamps"]]
    doubted = dict.fromkeys(filter(None, (each["doubt"] for each in _sourced(document))))
    doubts = [words("cli-source-in-doubt", doubt=doubt) for doubt in doubted]
    steps = [words("cli-step", title=step["title"], say=step["say"]) for step in document["steps"]]
    lines = [
        head,
        "",
        words("cli-lamps"),
        *(f"  {lamp}" for lamp in lamps),
        *(_paragraph(f"  {doubt}") for doubt in doubts),
        "",
        words("cli-steps"),
        *(_paragraph(f"  {at:2} {step}") for at, step in enumerate(steps, start=1)),
    ]
    return "\n".join(lines)


def _lamp_text(lamp: dict[str, Any], words: Words) -> str:
    colours = [message(f"colour-{each.replace(' ', '-')}") for each in lamp["colour"].split(" or ")]
    provenance = lamp["provenance"].partition(",")[0].replace(" ", "-")
    return words(
        "cli-lamp",
        name=lamp["name"],
        colours=tuple(colours),
        circuit=lamp["circuit"],
        source=lamp["source"],
        provenance=message(f"provenance-{provenance}"),
    )


def _sourced(document: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """All that the document names a source for; looks at lamps follow the rules of these."""
    yield from (*document["lamps"], *document["reflectors"])
    yield from (step for step in document["steps"] if step["part"] != "lamps")


def _paragraph(text: str) -> str:
    return fill(text, 100, subsequent_indent=" " * 5, break_on_hyphens=False)


def wiring_text(document: dict[str, Any], words: Words) -> str:
    """Write the document of a vehicle's wiring for people: pins, circuits, and what burns where."""
    filaments = document["filaments"]
    place = f"connectors/{document['connector']}"
    pins = [_pin_in_words(pin, place, words) for pin in document["pins"]]
    title = Message(id=f"{place}/title", written=document["connector_title"])
    rating = Message(id=f"{place}/rating", written=document["connector_rating"])
    lines = [
        words(
            "cli-wiring",
            vehicle=document["vehicle"],
            volts=document["volts"],
            title=title,
            connector=document["connector"],
        ),
        *([words("cli-rating", rating=rating)] if rating.written else []),
        "",
        words("cli-pins" if document["connector_feeds_lamps"] else "cli-pins-of-rear-socket"),
        *_table(_heads(("pin", "colour", "does"), words), [_pin_row(pin) for pin in pins]),
        *(
            f"  {words('cli-pin-in-doubt', pin=pin['pin'], doubt=pin['doubt'])}"
            for pin in pins
            if pin["doubt"]
        ),
        "",
        words("cli-circuits"),
        *_table(_heads(("circuit", "pin", "lamps"), words), _circuit_rows(document)),
        "",
        words("cli-bulbs"),
        *_table(
            _heads(("housing", "circuit", "ground", "watts", "bulb"), words),
            [_filament_row(filament, words) for filament in filaments],
        ),
    ]
    if any(filament["fitted"] == USUAL for filament in filaments):
        lines.append(f"  {words('cli-usual-bulb')}")
    return "\n".join(lines)


def _heads(names: Sequence[str], words: Words) -> list[str]:
    return [words(f"cli-head-{name}") for name in names]


def _pin_in_words(pin: dict[str, Any], place: str, words: Words) -> dict[str, Any]:
    """A pin with what the connector's file says of it in the reader's language."""
    worded = {
        key: words.text(Message(id=f"{place}/{pin['pin']}/{key}", written=pin[key]))
        for key in ("function", "colour", "doubt")
        if pin[key]
    }
    return pin | worded


def _pin_row(pin: dict[str, Any]) -> list[str]:
    return [f"{pin['pin']}{'?' if pin['doubt'] else ''}", pin["colour"] or "-", pin["function"]]


def _circuit_rows(document: dict[str, Any]) -> list[list[str]]:
    lit = Counter(filament["circuit"] for filament in document["filaments"])
    return [
        [circuit["id"], circuit["pin"] or "-", f"{lit[circuit['id']] or '-'}"]
        for circuit in (*document["circuits"], *document["without_lamps"])
    ]


def _filament_row(filament: dict[str, Any], words: Words) -> list[str]:
    bulb = words("cli-led") if filament["led"] else filament["bulb"]
    watts, volts = f"{filament['watts']:.1f}", f"{filament['volts']:g}"
    return [
        filament["housing"],
        filament["circuit"],
        filament["cluster"],
        words("cli-watts", watts=watts, volts=volts),
        f"{bulb}{' *' if filament['fitted'] == USUAL else ''}",
    ]


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """Columns as wide as their widest cell."""
    whole = [head, *rows]
    widths = [max(map(len, column)) for column in zip(*whole, strict=True)]
    return [
        "  "
        + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in whole
    ]


def hold_document(result: Assessment, limit_psi_per_min: float, log: Log) -> dict[str, Any]:
    """Tell what an air hold came to, the limit, and how long it was held; pressures in psi."""
    odd = result.misread
    return asdict(result) | {
        "misread": {"seconds": odd[0], "psi": odd[1]} if odd else None,
        "limit_psi_per_min": limit_psi_per_min,
        "unit": log.unit,
        "readings": len(log.readings),
        "held_s": log.readings[-1][0] - log.readings[0][0],
    }


def hold_text(result: Assessment, limit_psi_per_min: float, log: Log, words: Words) -> str:
    """Write the same for people, in the log's unit: verdict, why it is none, rate, plain rule.

    Of readings one of which does not fit no rate is told: it would be that of the mistake.
    """
    words = words.shown_in(Units(log.unit))
    document = hold_document(result, limit_psi_per_min, log)
    why = doubt(result, limit_psi_per_min, log.unit, words)
    more = f"{result.hold_more_s:.0f}" if result.hold_more_s else "none"
    came_to = {"reason": result.reason, "why": why, "seconds": more}
    lines = [words(f"cli-hold-{result.verdict}", **came_to).strip()]
    if result.reason != "misread":
        rate = words(
            "cli-hold-rate",
            rate=rate_words(result.rate_psi_per_min, log.unit),
            span=span_words(result, words),
            limit=rate_words(limit_psi_per_min, log.unit),
            readings=document["readings"],
            held=f"{document['held_s']:g}",
        )
        lines.append(rate)
    return "\n".join([*lines, plain_rule(result, limit_psi_per_min, words)])


def check_document(
    files: Iterable[Path],
    problems: Iterable[Problem],
    provenance: Mapping[str, int],
    words: Words,
) -> dict[str, Any]:
    """The files that were checked, every problem in them, and how many facts are of which kind."""
    problem_rows = [
        {
            "where": words.text(problem.where),
            "key": problem.key,
            "what": words.text(problem.what),
            "mend": words.text(problem.mend),
        }
        for problem in problems
    ]
    return {
        "files": [str(path) for path in files],
        "problems": problem_rows,
        "provenance": dict(provenance),
    }


def check_text(problems: Sequence[Problem], words: Words) -> str:
    """Write the same for people: one line a problem."""
    lines = [problem_text(problem, words) for problem in problems]
    return "\n".join(lines) or words("cli-no-problems")


# How the list knows a stale line; the computer's own clock, which tells nobody else a time.
