"""What `walkaround causes` prints: one document for a case, and its text for people."""

from __future__ import annotations

from typing import Any

from walkaround.base.message import Message, message
from walkaround.diagnosis.findings import Fault, Findings, percent_likely
from walkaround.words.language import Words

LEAST_TOLD = 0.01
"""Causes with a smaller share are in the document, and are not told people."""
MOST_NAMED = 4
"""How many causes that look the same are named."""


def causes_document(vehicle: str, findings: Findings, words: Words) -> dict[str, Any]:
    """Return the likely causes of what was seen, the likeliest first, and what to do next.

    `nothing_odd` says that all that was seen is as it should be: the causes listed are then faults
    that would not have shown. Names of trials and their outcomes are what a case file's [found]
    takes.
    """
    following = findings.next
    return {
        "vehicle": vehicle,
        "nothing_odd": findings.nothing_odd,
        "causes": [
            {
                **_place(cause.fault),
                "share": cause.share,
                "name": words.text(cause.name),
                "why": words.text(cause.why),
                "next": words.text(cause.next),
                "trial": cause.trial,
                "same_look": [_place(fault) for fault in cause.same_look],
            }
            for cause in findings.causes
        ],
        "next": following
        and {
            "trial": following.id,
            "say": words.text(following.say),
            "outcomes": {id_: words.text(said) for id_, said in following.outcomes},
        },
    }


def causes_text(findings: Findings, words: Words) -> str:
    """Write the same for people: a cause in three lines, its share in percent."""
    lines = [words("cli-nothing-odd")] if findings.nothing_odd else []
    for cause in findings.causes:
        if cause.share < LEAST_TOLD and cause is not findings.causes[0]:
            continue
        share = percent_likely(cause.share)
        lines.append(words("cli-cause", share=share, why=cause.why))
        if names := cause.same_look_names:
            shown = (*names[:MOST_NAMED], *_and_more(len(names) - MOST_NAMED))
            lines.append(f"  {words('cli-same-look', faults=shown)}")
        lines.append(f"  {words.text(cause.next)}")
    if findings.next:
        outcomes = words.row(said for _, said in findings.next.outcomes)
        lines.append(words("cli-next-thing", say=findings.next.say, outcomes=outcomes))
    return "\n".join(lines)


def _and_more(count: int) -> list[Message]:
    return [message("cli-more-causes", count=count)] if count > 0 else []


def _place(fault: Fault) -> dict[str, str]:
    return {"kind": fault.kind, "place": fault.place}
