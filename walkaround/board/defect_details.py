"""The details of open defects: what was found, which is more than the title of the step says."""

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


def read_fault_texts(
    rows: Iterable[BoardRow], store: WalkReader, words: Words
) -> dict[tuple[str, str], str]:
    """Read what was found, by the ids of walk and step; a walk that cannot be read is left out.

    Walks do not stay in memory. Each takes a few milliseconds, so do not call this in the event
    loop that serves the phones.
    """
    fault_texts = {}
    for id_ in {defect.walk for row in rows for defect in row.defects}:
        try:
            walk = fold(store.read(id_).events)
        except WalkaroundError as error:
            log.warning("the board names the defects of %s only: %s", id_, error)
            continue
        for finding in findings_of(walk, words):
            fault_texts[id_, finding.step.id] = "; ".join(fault.what for fault in finding.faults)
    return fault_texts
