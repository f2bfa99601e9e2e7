"""Hostile data that is still valid: vehicles, checklists and power sources as strangers write them.

Texts look like anything but words and are as long as they may be, lists are as long as they may
be, numbers stand at their limits. The app reads all of it from files, as it reads a stranger's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import cycle, islice
from random import Random
from typing import Any

from support.made_up_vehicles import TODAY
from support.strangers import as_toml
from support.taking import own_vehicles

from walkaround.library.toml_file import MOST_FILE_BYTES
from walkaround.library.validate import LONGEST_LINE, LONGEST_TEXT
from walkaround.rules.checklist import FILLED, PARTS
from walkaround.rules.checks import MOST_LIMITS, SHORT_MAX
from walkaround.rules.limits import MOST_HOLD_S as MOST_S
from walkaround.rules.limits import MOST_PSI
from walkaround.rules.measure_checks import MOST_VALUE, MOST_WAIT_S
from walkaround.vehicle.model import PLAUSIBLE
from walkaround.vehicle_editor.checks import (
    EARLIEST,
    LONGEST,
    LONGEST_DAMAGE,
    LONGEST_TYPE,
    MOST_BY_KEY,
)

ODD = (
    "e" + "\u0301" * 199,  # one letter under two hundred accents
    "שלום עולם ",
    "مرحبا \u0661\u0662 ",
    "W",
    "漢字",
    "﷽",  # one character, as wide as a line
    "\U0001f69b",
    "\u2764\ufe0f\U0001f468\U0001f3fd",
    "**bold** _it_ `x` [a](http://b) # ~~c~~ | d | ",
    "<b>b</b><script>alert(1)</script><img src=x onerror=y> &amp; ",
    "{volts} {0} {} {volts.__class__} %s %n %(a)s ${HOME} ",
    '{"_c":"Text","_i":1,"value":"x"} ',
    "=cmd|' /C calc'!A0 ",
    "\\n \\u202e C:\\con /etc/passwd ../../",
    "\ue000\uffff\U0010ffff",
    "\u2800\u00a0\u3000.",
    "110 psi 1 in ",
    "This screen is OK. ",
)  # fmt: skip
"""Parts of texts: nothing in them is unseen, and so nothing of them is refused."""
BRACED = frozenset("{}")

_EACH = 4
"""The texts of a step that stands once for each wheel end are so much shorter: no file of a walk
holds more."""
_REPEATED = 2
"""So many rows of lamps at most repeat along the sides, forty times on the longest vehicle."""

Table = dict[str, Any]


def text(chance: Random, most: int, *, braces: bool = True) -> str:
    """A text of one line, most often of exactly so many characters.

    It stands in brackets, as blanks at its ends are taken away from what is typed.
    """
    parts = [part for part in ODD if braces or BRACED.isdisjoint(part)]
    mixed = "".join(chance.sample(parts, chance.choice((1, 1, 1, 3))))
    length = most if chance.random() < 0.8 else chance.randint(3, most)
    return f"[{''.join(islice(cycle(mixed), length - 2))}]"


def lines(chance: Random, most: int, *, braces: bool = True) -> str:
    """A text of several lines, some of them empty, of so many characters at most."""
    each = [text(chance, max(1, most // 6), braces=braces) for _ in range(5)]
    return "\n\n".join(each)[:most].rstrip()


def either(chance: Random, least: float, most: float) -> float:
    """A number at one of its limits, or between them."""
    return chance.choice((least, most, round(chance.uniform(least, most), 3)))


def vehicle(chance: Random) -> Table:
    """A vehicle as its file says it: built like one of the depot's, with more of everything."""
    like = chance.choice(own_vehicles())
    brakes = {**like.get("brakes", {})}
    if axles := brakes.get("axles"):
        other = {"actuator": "other", "type": text(chance, LONGEST_TYPE), "spring": True}
        many = chance.choice((1, len(axles), MOST_BY_KEY["brakes.axles"]))
        brakes["axles"] = [chance.choice((*axles, other)) for _ in range(many)]
        litres = chance.choice((0.1, 2000.0))
        brakes["reservoir_l"] = [litres] * chance.randint(0, MOST_BY_KEY["brakes.reservoir_l"])
    table = {
        **like,
        "id": "strange",
        "name": text(chance, LONGEST["name"]),
        "plate": text(chance, LONGEST["plate"]),
        "notes": lines(chance, LONGEST["notes"]),
        "damage": [
            text(chance, LONGEST_DAMAGE) for _ in range(chance.choice((0, MOST_BY_KEY["damage"])))
        ],
        "made": chance.choice((EARLIEST, date(1998, 3, 1), TODAY)),
        "width_mm": either(chance, *PLAUSIBLE["width_mm"]),
        "length_mm": either(chance, *PLAUSIBLE["length_mm"]),
        "gvwr_kg": either(chance, *PLAUSIBLE["gvwr_kg"]),
    }
    return {**table, "brakes": brakes} if brakes else table


def checklist(chance: Random, steps: int) -> Table:
    """A checklist of so many steps of every kind, some lamps, and limits by the dozen."""
    parts = sorted(chance.choices(PARTS, k=steps), key=PARTS.index)
    numbered = [_step(chance, number, part) for number, part in enumerate(parts)]
    return {
        **_sourced(chance),
        "id": "strange",
        "title": text(chance, LONGEST_LINE),
        "lamp": [_reflector(chance, number) for number in range(chance.choice((0, 3, 20)))],
        "step": numbered,
    }


def _sourced(chance: Random) -> Table:
    return {"source": text(chance, LONGEST_LINE), "provenance": "memory"}


def _reflector(chance: Random, number: int) -> Table:
    side = {"end": "side", "gap_mm": 3000, "along": 0.0}
    ends = {"end": "rear"}, {"end": "front", "across": 0.0}
    place = chance.choice((side, *ends) if number < _REPEATED else ends)
    long = LONGEST_TEXT // (_EACH if place is side else 1)
    return {
        **_sourced(chance),
        "id": f"strange_{number}",
        "kind": chance.choice(("reflector", "tape")),
        **{key: text(chance, LONGEST_LINE, braces=False) for key in ("name", "height")},
        "colour": [text(chance, LONGEST_LINE), "red", "no colour"],
        "quantity": 2,
        "spread": "pair",
        **place,
        "required": chance.random() < 0.5,
        **{key: lines(chance, long, braces=False) for key in ("what", "why")},
    }


def _step(chance: Random, number: int, part: str) -> Table:
    kind = chance.choice(("act", "look", "listen", "hold", "measure", "gauges", "wait"))
    often = chance.choice(("", "", "per_axle", "per_end"))
    place = {"": "", "per_axle": "_{axle}", "per_end": "_{axle}_{side}"}[often]
    step: Table = {
        **_words(chance, f" {{{chance.choice([*sorted(FILLED)])}}}", _EACH if often else 1),
        "id": f"strange_{number}{place}",
        "part": part,
        "kind": kind,
        "spot": chance.choice(("front", "right_side", "rear", "left_side", "cab", "source")),
        "quiet": chance.random() < 0.5,
        "soft": chance.random() < 0.5,
        "must": kind in ("act", "look") and chance.random() < 0.2,
        "needs": chance.choice(((), ("air",), ("lamps",))),
        **({often: True} if often else {}),
    }
    if kind == "wait":
        after = {"after": "strange_first", "seconds": either(chance, 1e-9, MOST_WAIT_S)}
        step["wait"] = after
    if kind == "hold":
        step |= _hold(chance, often)
    if kind == "measure":
        step |= _measure(chance, often)
    return step


def _words(chance: Random, filled: str, part: int) -> Table:
    """The texts of a step, as long as they may be or a part of it, each ending in `filled`."""
    most = {"title": LONGEST_LINE, "short": SHORT_MAX, "caution": LONGEST_LINE}
    said = {key: text(chance, n // part - len(filled), braces=False) for key, n in most.items()}
    said["long"] = lines(chance, LONGEST_TEXT // part - len(filled), braces=False)
    words = {key: each + filled for key, each in said.items()}
    return {**words, "source": text(chance, LONGEST_LINE // part), "provenance": "memory"}


def first_step(chance: Random) -> Table:
    """The step from which every wait counts."""
    return {
        **_words(chance, "", 1),
        "id": "strange_first",
        "part": "secure",
        "kind": "act",
        "spot": "front",
    }


def _limits(chance: Random, least: float, most: float, often: str) -> list[Table]:
    return [
        {"id": f"limit_{n}", "at_most": either(chance, least, most), **_sourced(chance)}
        for n in range(chance.choice((0, 1, 1 if often else MOST_LIMITS)))
    ]


def _hold(chance: Random, often: str) -> Table:
    gauges = chance.sample(("supply", "service", "primary", "secondary"), chance.randint(1, 4))
    rule = {
        "set_psi": {gauge: either(chance, 0.5, MOST_PSI) for gauge in gauges},
        "limit_psi_per_min": either(chance, 1e-9, MOST_PSI),
        "seconds": either(chance, 1.0, MOST_S / 2),
        "limit_source": text(chance, LONGEST_LINE),
        "limit_provenance": "memory",
        "trapped": chance.choice(("", "reservoirs")),
    }
    return {"hold": rule, "limit": _limits(chance, 1e-9, MOST_PSI / 3, often)}


def _measure(chance: Random, often: str) -> Table:
    quantity = chance.choice(("psi", "s", "in") if often == "per_end" else ("psi", "s"))
    if quantity == "in":
        return {"measure": {"quantity": "in", "limits_from": "strokes"}}
    rule: Table = {"quantity": quantity, "start": either(chance, 0.0, MOST_VALUE)}
    if quantity == "psi":
        rule |= {"of": ["supply", "service", "primary", "secondary"]}
        rule |= {"drop": chance.random() < 0.5}
    else:
        rule |= {key: text(chance, LONGEST_LINE, braces=False) for key in ("begin", "end")}
    return {"measure": rule, "limit": _limits(chance, 0.0, MOST_VALUE, often)}


def power_sources(chance: Random, count: int) -> Table:
    """So many power sources, each with a switch for left and one for the rest."""
    sources = []
    for number in range(count):
        lights: Sequence[Table] = (
            {"left_turn": "flashing", "left_stop_turn": "flashing"},
            {"tail": "steady", "marker": "steady", "stop": "steady", "right_turn": "flashing"},
        )
        switches = [
            {
                "id": f"switch_{at}",
                "name": text(chance, LONGEST_LINE, braces=False),
                "position": [
                    {
                        "id": "on",
                        "lights": lit,
                        **{
                            key: text(chance, LONGEST_LINE, braces=False)
                            for key in ("name", "say", "keep")
                        },
                    }
                ],
            }
            for at, lit in enumerate(lights)
        ]
        sources.append(
            {
                **_sourced(chance),
                "id": f"strange_{number}",
                "title": text(chance, LONGEST_LINE, braces=False),
                "where": chance.choice(("spot", "cab", "called")),
                "switch": switches,
            }
        )
    return {"power_source": sources}


def files(chance: Random, steps: int) -> Iterator[tuple[str, bytes]]:
    """Where each file lies in the data folder, and what is in it.

    Of the steps there are as many as go into a file.
    """
    yield "vehicles/strange.toml", as_toml(vehicle(chance))
    made = checklist(chance, steps)
    made["step"].insert(0, first_step(chance))
    while len(data := as_toml(made)) > MOST_FILE_BYTES:
        made["step"] = made["step"][: len(made["step"]) * MOST_FILE_BYTES // len(data)]
    yield "checklists/strange.toml", data
    yield "checklists/power.toml", as_toml(power_sources(chance, chance.randint(1, 6)))
