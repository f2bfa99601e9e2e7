"""What one page tells of the likely causes of a walk's lamps, and what was tried."""

from __future__ import annotations

from walkaround.base.errors import WalkaroundError
from walkaround.causes.sights import Condition
from walkaround.causes.study import Study, findings
from walkaround.library.case_file import study_for
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import Walking
from walkaround.walk.events import Tried
from walkaround.walk.lamps_seen import lamps_seen
from walkaround.walk.state import Walk
from walkaround.weighing.findings import Findings

# A walk as far as it is, and what made the eyes err.
_At = tuple[str, int, frozenset[Condition]]


class CauseTaps:
    """The causes of one page's walk; worked out once for what is known of it."""

    def __init__(self, view: View, walking: Walking) -> None:
        self._view = view
        self._walking = walking
        self._study: tuple[str, Study] | None = None
        self._told: tuple[_At, Findings] | None = None

    def causes(self, walk: Walk, conditions: frozenset[Condition] = frozenset()) -> Findings | None:
        """Tell the likely causes of what is open at the lamps; None where nothing is."""
        steps = {step.id: step for step in walk.steps}
        if walk.plan is None or not any(
            steps[defect.step].kind == "lamp" for defect in walk.open_defects
        ):
            return None
        at = (walk.id, len(walk.events), conditions)
        if self._told is None or self._told[0] != at:
            study = self.study(walk)
            if study is None:
                return None
            self._told = at, findings(study, lamps_seen(walk, study, conditions))
        return self._told[1]

    async def tried(self, trial: str, outcome: str) -> None:
        """This came out of it."""
        if not self._walking.too_soon():
            await self._walking.do((Tried, {"trial": trial, "outcome": outcome}))

    def study(self, walk: Walk) -> Study | None:
        """Give the wiring of this walk's vehicle; None where the rules of today cannot wire it."""
        assert walk.plan is not None
        if self._study is None or self._study[0] != walk.id:
            try:
                self._study = walk.id, study_for(walk.plan.vehicle, self._view.parts.library)
            except WalkaroundError:
                return None
        return self._study[1]
