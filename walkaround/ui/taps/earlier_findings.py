"""What earlier walks of a vehicle found at a step, and nobody has cured since."""

from __future__ import annotations

from collections.abc import Mapping

from walkaround.base.errors import WalkaroundError
from walkaround.ui.page.view import View
from walkaround.walk.state import Walk
from walkaround.words.measured_values import defect_words


class EarlierFindings:
    """The findings of earlier walks that one page tells; looked up once for each walk."""

    def __init__(self, view: View) -> None:
        self._view = view
        self._walk_id = ""
        self._walks: Mapping[str, Walk] = {}

    def lines_at(self, walk: Walk, step_id: str) -> list[str]:
        """Tell what was found at this step the last time, and its note; until it is found again."""
        if self._walk_id != walk.id:
            self._walk_id, self._walks = walk.id, self._looked_up(walk)
        earlier, words = self._walks.get(step_id), self._view.words
        if earlier is None or step_id in walk.defects:
            return []
        defect, note = earlier.defects[step_id], earlier.notes.get(step_id)
        day = defect.found.at.local_text()[:10]
        line = words("last-time", day=day, defect=defect_words(earlier, defect, words))
        return [line, *([note] if note else [])]

    def _looked_up(self, walk: Walk) -> Mapping[str, Walk]:
        """Find, by step, the walk that found its defect: open, or rechecked now."""
        assert walk.plan is not None
        if self._view.practices:
            return {}
        former, parts = walk.plan.recheck_of, self._view.parts
        try:
            opened = parts.store.overview().open_defects.get(walk.plan.vehicle.id, {})
            walk_of = {step: id_ for step, id_ in opened.items() if id_ != walk.id}
            if former:
                walk_of |= {step.id: former for step in walk.steps if step.id not in walk_of}
            walks = {id_: parts.open_walks.walk(id_) for id_ in set(walk_of.values())}
        except WalkaroundError:
            return {}
        return {step: walks[id_] for step, id_ in walk_of.items() if step in walks[id_].defects}
