"""When a phrase counts as heard: by how much likelier it is than anything else that was scored.

The bounds were set on synthetic voices in noise that a test makes; `tests/soak` tries them on other
voices. Whatever falls short changes nothing: it is said again, or tapped.
"""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

LEAST_LEAD = 6.0
"""How much likelier than the next phrase: the natural logarithm of the ratio."""
MOST_GAP = 8.0
"""How much less likely than whatever the model would have written down by itself."""
LEAST_END = -2.0
"""How likely it is that nothing was said after the phrase: one that goes on is part of talk."""
SHORTEST_S, LONGEST_S = 0.4, 1.9
"""How long a phrase takes to say."""


class HeardText(BaseModel):
    """The likeliest of the texts that were scored, and how likely.

    Attributes:
        text: which; empty where no voice was heard, or one that talked on.
        lead, gap, end: see the bounds above.
        seconds: how long the voice lasted.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    text: str = ""
    lead: float = 0.0
    gap: float = 0.0
    end: float = 0.0
    seconds: float = 0.0


def is_clear(
    likeliest: HeardText, *, least_lead: float = LEAST_LEAD, longest_s: float = LONGEST_S
) -> bool:
    """Whether the likeliest text is what was said; the bounds are those of a phrase if not said."""
    return (
        bool(likeliest.text)
        and likeliest.lead >= least_lead
        and likeliest.gap <= MOST_GAP
        and likeliest.end >= LEAST_END
        and SHORTEST_S <= likeliest.seconds <= longest_s
    )
