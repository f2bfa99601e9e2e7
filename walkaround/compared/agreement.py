"""How far two people agree who judged the same things: the share, and Cohen's kappa."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Agreement:
    """How far two people agree.

    Attributes:
        things: how many things both judged.
        alike: of how many they said the same.
        kappa: the agreement beyond what chance gives, 1 where it is perfect and 0 where it is no
            better; None where both said one and the same of everything, so that chance alone would
            agree as well, and of nothing.
    """

    things: int
    alike: int
    kappa: float | None


def agreement(judged: Sequence[tuple[str, str]]) -> Agreement:
    """Count how far two people agree, by Cohen's kappa.

    J. Cohen, "A coefficient of agreement for nominal scales", Educational and Psychological
    Measurement 20 (1960), 37-46: (observed - by chance) / (1 - by chance), in counts here.

    Args:
        judged: what the first and what the second person said of each thing.
    """
    things, alike = len(judged), sum(first == second for first, second in judged)
    said_by_first = Counter(first for first, _ in judged)
    said_by_second = Counter(second for _, second in judged)
    # Things squared times the share that would be alike by chance: whole numbers, no rounding.
    by_chance = sum(count * said_by_second[said] for said, count in said_by_first.items())
    left = things * things - by_chance
    return Agreement(things, alike, (things * alike - by_chance) / left if left else None)
