"""Circuits and power sources made up for tests, and a brute force over their settings.

The brute force shares nothing with the planner: it reads a source as its file says it, lays every
setting out as a table of looks, and tries sets of settings by increasing size.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from functools import cache
from itertools import combinations, permutations, product
from typing import Any

from hypothesis import strategies as st

from walkaround.disk.locations import shipped
from walkaround.lamps.wiring import Circuit
from walkaround.rounds.power_source import PowerSource, PowerTable

Looks = dict[str, str]
# A circuit with a look, or two circuits of which the first is on and the second looks otherwise.
Demand = tuple[str, str]


def circuit(id_: str, pins: tuple[str, ...] = ()) -> Circuit:
    """A circuit of that id; those of turn signals flash."""
    return Circuit(
        id=id_,
        name=id_.replace("_", " "),
        pins=pins,
        flashes="turn" in id_.split("_"),
        meter_first=False,
        why_doubtful="",
        source="made for tests",
        provenance="memory",
        function="",
        fn="AUX",
    )


def circuits(*ids: str) -> list[Circuit]:
    """Circuits of these ids."""
    return [circuit(id_) for id_ in ids]


def shipped_sources() -> dict[str, PowerSource]:
    """The shipped power sources by id."""
    text = (shipped() / "power_sources.toml").read_text(encoding="utf-8")
    return PowerTable.model_validate(tomllib.loads(text)).by_id()


def source(switches: Sequence[dict[str, Any]], where: str = "cab") -> PowerSource:
    """A power source with these switches, written as in a file."""
    return PowerSource.model_validate(
        {
            "id": "made",
            "title": "the made source",
            "where": where,
            "switch": list(switches),
            "source": "made for tests",
            "provenance": "memory",
        }
    )


def switch(id_: str, **positions: dict[str, Any]) -> dict[str, Any]:
    """A switch as in a file: each position by id with its keys but the names."""
    tables = [{"id": p, "name": f"{id_} {p}", "say": f"{id_} to {p}"} for p in positions]
    return {
        "id": id_,
        "name": id_,
        "position": [table | positions[table["id"]] for table in tables],
    }


def had_settings(source: PowerSource, lamps: Sequence[Circuit]) -> list[Looks]:
    """Every different setting that can be had, as the look of each circuit."""
    found: list[Looks] = []
    for picked in product(*[[None, *switch.positions] for switch in source.switches]):
        at = {s.id: p for s, p in zip(source.switches, picked, strict=True) if p is not None}
        if not all(_goes_with(s, at) for s in at):
            continue
        looks = {lamp.id: "dark" for lamp in lamps}
        for look in ("steady", "flashing"):
            for position in at.values():
                looks |= {k: look for k, v in position.lights.items() if v == look and k in looks}
        if looks not in found:
            found.append(looks)
    return found


def _goes_with(switch_id: str, at: dict[str, Any]) -> bool:
    """Whether this switch's position stands beside the others that are set."""
    set_ = {name for s, p in at.items() for name in (s, f"{s}.{p.id}")}
    position = at[switch_id]
    if set_ & set(position.excludes):
        return False
    return all(
        any(name in set_ for name in position.needs if name.split(".")[0] == needed)
        for needed in {name.split(".")[0] for name in position.needs}
    )


def shows(looks: Looks) -> set[Demand]:
    """What one setting shows."""
    on = [id_ for id_, look in looks.items() if look != "dark"]
    return {(id_, looks[id_]) for id_ in on} | {
        (a, b) for a, b in permutations(looks, 2) if a in on and looks[a] != looks[b]
    }


def demands(settings: Iterable[Looks], lamps: Sequence[Circuit]) -> set[Demand]:
    """What has to be shown of all that these settings can show."""
    can = set().union(*[shows(looks) for looks in settings])
    asked = {(a, b) for a, b in can if b not in ("steady", "flashing")}
    for lamp in lamps:
        had = {(lamp.id, look) for look in ("steady", "flashing")} & can
        words = lamp.id.split("_")
        wanted = {"flashing"} if "turn" in words else {"steady"}
        wanted |= {"steady"} if "stop" in words else set()
        asked |= {(id_, look) for id_, look in had if look in wanted} or had
    return asked


def fewest_by_force(source: PowerSource, lamps: Sequence[Circuit]) -> int:
    """The least number of settings that show all demands, sets of every size tried in turn."""
    settings = had_settings(source, lamps)
    asked = sorted(demands(settings, lamps))
    bits = {frozenset(shows(looks)) for looks in settings}
    each = {sum(1 << n for n, demand in enumerate(asked) if demand in held) for held in bits}
    reached, size = {0}, 0
    # Sets of settings that show the same are followed once.
    while (1 << len(asked)) - 1 not in reached:
        reached, size = {done | one for done in reached for one in each}, size + 1
    return size


def can_be_told_apart(settings: Iterable[Looks], lamps: Sequence[Circuit]) -> set[frozenset[str]]:
    """The pairs of circuits that some setting shows with different looks."""
    return {
        frozenset((a.id, b.id))
        for looks in settings
        for a, b in combinations(lamps, 2)
        if looks[a.id] != looks[b.id]
    }


LAMPS = ("tail", "marker", "stop", "left_turn", "right_turn", "left_stop_turn", "backup")


@st.composite
def made_sources(draw: st.DrawFn, of: Sequence[str] = LAMPS, most: int = 5) -> PowerSource:
    """Up to `most` switches, positions that light random circuits, random needs and exclusions."""
    names = [f"s{n}" for n in range(draw(st.integers(1, most)))]
    # More than one position for two switches at most, or the brute force would not end.
    doubles = draw(some_of(*names, most=2))
    switches = []
    for name in names:
        one = some_of(*[other for other in names if other != name], most=1)
        positions = {
            id_: {"lights": draw(lit(*of)), "excludes": draw(one), "needs": draw(rarely(one))}
            for id_ in (("a", "b") if name in doubles else ("a",))
        }
        switches.append(switch(name, **positions))
    return source(switches)


@cache
def lit(*of: str) -> st.SearchStrategy[dict[str, str]]:
    """One to four circuits and how they are lit."""
    return st.dictionaries(
        st.sampled_from(of), st.sampled_from(["steady", "flashing"]), min_size=1, max_size=4
    )


@cache
def some_of(*names: str, most: int) -> st.SearchStrategy[list[str]]:
    """Up to `most` of these names; the same strategy each time, as a new one is slow to begin."""
    return st.lists(st.sampled_from(names), max_size=most, unique=True) if names else st.just([])


@cache
def rarely(some: st.SearchStrategy[list[str]]) -> st.SearchStrategy[list[str]]:
    """Nothing, mostly."""
    return st.one_of(st.just([]), st.just([]), some)
