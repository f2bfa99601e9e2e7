"""What was found at the open defects of vehicles: more than the title of the step says."""

from __future__ import annotations

import logging
from collections.abc import Iterable

from walkaround.base.errors import WalkaroundError
from walkaround.board.rows import BoardRow
from walkaround.records.reader import WalkReader
from walkaround.report.findings import findings_of
from walkaround.walk.advance import fold
from walkaround.words.language import Words

log = logging.getLogger(__name__)


def seen_at(
    rows: Iterable[BoardRow], store: WalkReader, words: Words
) -> dict[tuple[str, str], str]:
    """Read what was found, by the walk's id and the step's; a walk that can't be read is left out.

    No walk stays in memory. A few milliseconds each: not for the loop that serves the phones.
    """
    seen_faults = {}
    for id_ in {defect.walk for row in rows for defect in row.defects}:
        try:
            walk = fold(store.read(id_).events)
        except WalkaroundError as error:
            log.warning("the board names the defects of %s only: %s", id_, error)
            continue
        for finding in findings_of(walk, words):
            seen_faults[id_, finding.step.id] = "; ".join(fault.what for fault in finding.faults)
    return seen_faults
