"""The tables that leaks are computed with: who feeds what, which part loses air, figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal, NamedTuple, get_args

from walkaround.base.provenance import Fact
from walkaround.diagnosis.figures import FigureTable, day_of

BrakeState = Literal["released", "applied", "dumped"]
"""How the brakes stand. `dumped`: the red line is empty, or what else sets the parking brakes."""
BRAKE_STATES: tuple[BrakeState, ...] = get_args(BrakeState)


class Feed(NamedTuple):
    """Air that goes one way, from one node of the plumbing to another.

    Attributes:
        fed_from: empty where the node had air before and nothing feeds it.
        brakes: while they are so.
        needs: what must be so of the vehicle.
    """

    node: str
    fed_from: str
    brakes: frozenset[BrakeState]
    needs: frozenset[str]


class LeakPath(NamedTuple):
    """One way in which a part may lose air.

    Attributes:
        kind, place: the part, its place being empty where there is one of the kind.
        node: what it empties.
        open_in: what part of its flow it lets out, while the brakes are so; without an entry none.
        heard: the place where it is heard.
        needs: what must be so of the vehicle.
        share: how often it happens beside the others.
    """

    kind: str
    place: str
    node: str
    open_in: Mapping[BrakeState, float]
    heard: str
    needs: frozenset[str]
    share: float


class AirTables:
    """The rows of the three tables, with where each comes from."""

    def __init__(
        self,
        feeds: Iterable[Mapping[str, str]],
        leaks: Iterable[Mapping[str, str]],
        figures: Iterable[Mapping[str, str]],
    ) -> None:
        """Take the rows of the feeds, of the ways of leaking, and of the figures."""
        self.figures = FigureTable(figures)
        self.feeds: list[Feed] = []
        self.ways: list[LeakPath] = []
        self._facts: list[Fact] = []
        for row in feeds:
            needs = frozenset(row["needs"].split())
            self.feeds.append(Feed(row["node"], row["fed_from"], frozenset(_brakes(row)), needs))
            self._note("feed", row, ("node", "fed_from", "brakes", "needs"))
        for row in leaks:
            part = (row["kind"], row["place"], row["from"], _brakes(row), row["heard"])
            self.ways.append(LeakPath(*part, frozenset(row["needs"].split()), float(row["share"])))
            self._note("leak", row, ("kind", "place", "from", "brakes", "heard", "needs"))

    def facts(self) -> Iterator[Fact]:
        """List each row with its provenance."""
        yield from self._facts
        for fact in self.figures.facts():
            yield fact._replace(place=f"leak {fact.place}")

    def _note(self, what: str, row: Mapping[str, str], keys: Iterable[str]) -> None:
        place = " ".join([what, *(row[key] for key in keys if row[key])])
        self._facts.append(Fact(place, row["provenance"], day_of(row)))


def _brakes(row: Mapping[str, str]) -> Mapping[BrakeState, float]:
    """Return how far each brake state opens the row: wholly, unless its word has a share."""
    shares = dict(word.partition(":")[::2] for word in row["brakes"].split())
    if not shares:
        return dict.fromkeys(BRAKE_STATES, 1.0)
    return {each: float(shares[each] or 1.0) for each in BRAKE_STATES if each in shares}
