"""Where a fact of a table comes from, so that what was read can be told from what was not.

There are three kinds and no fourth. A fact is *read* when whoever wrote its row looked at the
place that the source names; it then has a day on which that text was in force. It is from
*memory* when nobody has looked yet. It is *common practice* when no rule or standard says it, so
that there is nothing to look at. A row of which a part was read and another part was not is from
memory, or has its parts in rows of their own.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Literal, NamedTuple, get_args

from walkaround.base.toml_model import Day, Written

Provenance = Literal["read", "memory", "common practice, no source"]


class Sourced(Written):
    """A row of a file that says where it comes from.

    Attributes:
        source: the section and its paragraph, or the document and its page.
        provenance: how much the source is worth.
        current: a day on which the text that was read was in force, such as that of its last
            amendment; of a text that bears no day, the day on which it was read.
        doubt: what is uncertain about the row, and why.
    """

    source: str
    provenance: Provenance
    current: Day | None = None
    doubt: str = ""


def together(parts: Iterable[str]) -> str:
    """Join what is said of several rows, such as their doubts, each once, without the empty."""
    return "; ".join(dict.fromkeys(part for part in parts if part))


class Fact(NamedTuple):
    """A fact: the row it stands in, its provenance as written, its day if it was read."""

    place: str
    provenance: str
    current: date | None


def provenance_counts(facts: Iterable[Fact]) -> dict[str, int]:
    """Count facts by their provenance: "read", "memory", "common_practice", "none" for no kind."""
    keys = dict(zip(get_args(Provenance), ("read", "memory", "common_practice"), strict=True))
    tally = dict.fromkeys([*keys.values(), "none"], 0)
    for fact in facts:
        tally[keys.get(fact.provenance, "none")] += 1
    return tally
