"""How long a walk will take: its words, its way, and what is done at each step.

It is an estimate to choose by, not a target: the figures are our own, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

from walkaround.plan.distance import way_m
from walkaround.plan.steps import Plan
from walkaround.rules.checklist import StepKind

WALKING_M_PER_S = 1.2
"""How fast a mechanic walks between two places of a vehicle; common practice, no source."""
SECONDS: Mapping[StepKind, float] = {
    "act": 15.0,
    "look": 8.0,
    "lamp": 6.0,
    "listen": 10.0,
    "hold": 75.0,
    "measure": 15.0,
    "chambers": 25.0,
    "gauges": 15.0,
    "wait": 0.0,
}
"""What a step of each kind takes besides its words; a wait runs beside other steps. Common
practice, no source: our own estimate."""


def walk_s(plan: Plan, spoken_words: int, words_per_min: float) -> float:
    """Estimate how long a walk takes that finds nothing wrong, seconds.

    Args:
        plan: what it asks.
        spoken_words: how many words its prompts have, as they are said.
        words_per_min: how fast they are said.
    """
    said_s = 60.0 * spoken_words / words_per_min
    walked_s = way_m(plan.vehicle, (step.spot for step in plan.steps)) / WALKING_M_PER_S
    return said_s + walked_s + sum(SECONDS[step.kind] for step in plan.steps)
