"""What speech recognition heard, and when it is clear enough to count.

The limits were set on synthetic voices in noise that a test makes; `tests/soak` tries them on other
voices. Speech that is not clear changes nothing: people say it again, or tap.
"""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

LEAST_LEAD = 6.0
"""How much likelier the phrase must be than the next one: the natural logarithm of the ratio."""
MOST_GAP = 8.0
"""How much less likely it may be than what the model decodes freely, as a logarithm too."""
LEAST_END = -2.0
"""How likely the end must be, as a logarithm: a phrase that goes on is part of a conversation."""
SHORTEST_S, LONGEST_S = 0.4, 1.9
"""How long a phrase takes to say, seconds."""


class HeardText(BaseModel):
    """The likeliest of the texts that were scored.

    Attributes:
        text: the text; empty if no voice was heard, or one that talked too long.
        lead, gap, end: see LEAST_LEAD, MOST_GAP and LEAST_END.
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
    """Tell whether the likeliest text is what was said; the default limits are for phrases."""
    return (
        bool(likeliest.text)
        and likeliest.lead >= least_lead
        and likeliest.gap <= MOST_GAP
        and likeliest.end >= LEAST_END
        and SHORTEST_S <= likeliest.seconds <= longest_s
    )
