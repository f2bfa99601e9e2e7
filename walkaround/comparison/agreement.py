"""How far two people agree who judged the same things: the share alike, and Cohen's kappa."""

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
        kappa: the agreement beyond chance: 1 is perfect, 0 is no better than chance; None if both
            said the same of every thing, where chance would agree as well, or judged nothing.
    """

    things: int
    alike: int
    kappa: float | None


def agreement(judgments: Sequence[tuple[str, str]]) -> Agreement:
    """Compute how far two people agree, by Cohen's kappa.

    J. Cohen, "A coefficient of agreement for nominal scales", Educational and Psychological
    Measurement 20 (1960), 37-46: (observed - by chance) / (1 - by chance), in counts here.

    Args:
        judgments: what the first and the second person said of each thing.
    """
    count, agreed = len(judgments), sum(first == second for first, second in judgments)
    first_counts = Counter(first for first, _ in judgments)
    second_counts = Counter(second for _, second in judgments)
    # The square of the count times the share alike by chance: whole numbers, no rounding.
    by_chance = sum(times * second_counts[judgment] for judgment, times in first_counts.items())
    chance_left = count * count - by_chance
    return Agreement(
        count, agreed, (count * agreed - by_chance) / chance_left if chance_left else None
    )
