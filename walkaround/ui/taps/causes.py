"""What one page tells of the likely causes of a walk's lamps and air, and what was tried."""

from __future__ import annotations

from collections.abc import Sequence

from walkaround.causes.appearance import Condition
from walkaround.causes.study import Study, lamp_findings, one_more_look
from walkaround.diagnosis.findings import Findings, NextThing
from walkaround.leaks.study import AirStudy, air_findings
from walkaround.library.walk_causes import air_study, has_lamp_defect, lamps_study
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import WalkForHolds
from walkaround.walk.events import Heard, TakenBack, Tried
from walkaround.walk.evidence.air_heard import air_heard, losing_steps
from walkaround.walk.evidence.lamps_seen import lamps_seen
from walkaround.walk.state import Walk

MORE_LOOK = "more_look"
"""The panel that asks for one more look."""

# A walk as far as it is, and what made the eyes err.
_At = tuple[str, int, frozenset[Condition]]


class CauseTaps:
    """The causes of one page's walk; worked out once for what is known of it.

    Attributes:
        erring: what makes the eyes err, as was said on this page.
    """

    def __init__(self, view: View, walk_taps: WalkForHolds) -> None:
        self._view = view
        self._walk_taps = walk_taps
        self.erring: frozenset[Condition] = frozenset()
        self._study: tuple[str, Study | None] | None = None
        self._told: tuple[_At, Findings] | None = None
        self._air_study: tuple[str, AirStudy | None] | None = None
        self._air_told: tuple[tuple[str, int], Findings] | None = None

    def causes(self, walk: Walk) -> Findings | None:
        """Tell the likely causes of what is open at the lamps; None where nothing is."""
        if not has_lamp_defect(walk):
            return None
        at = (walk.id, len(walk.events), self.erring)
        if self._told is None or self._told[0] != at:
            study = self.study(walk)
            if study is None:
                return None
            self._told = at, lamp_findings(study, lamps_seen(walk, study, self.erring))
        return self._told[1]

    def more_look(self, walk: Walk) -> NextThing | None:
        """Tell the look with one circuit on that would split the list; None if none would."""
        study = self.study(walk) if has_lamp_defect(walk) else None
        return one_more_look(study, lamps_seen(walk, study, self.erring)) if study else None

    async def asks_more(self, step_id: str) -> bool:
        """Ask, after the last look at the lamps, for one more that would split the list, if any."""
        view = self._view
        last = [step.id for step in view.walk.steps if step.kind == "lamp"][-1:]
        if [step_id] != last or (more := self.more_look(view.walk)) is None:
            return False
        view.open(MORE_LOOK)
        await view.sound.say(view.words("causes-more-said", look=more.say))
        return True

    def leaks(self, walk: Walk) -> Findings | None:
        """Tell the likely causes of what air holds lost; None where none lost too much."""
        if not losing_steps(walk):
            return None
        at = (walk.id, len(walk.events))
        if self._air_told is None or self._air_told[0] != at:
            study = self.air_study(walk)
            if study is None:
                return None
            self._air_told = at, air_findings(study, air_heard(walk))
        return self._air_told[1]

    async def record_trial(self, trial: str, outcome: str) -> bool:
        """Record what came out of a trial; return whether that was saved."""
        body = {"trial": trial, "outcome": outcome}
        return not self._walk_taps.too_soon() and await self._walk_taps.record_events((Tried, body))

    async def take_back(self, trial: str) -> None:
        """Take the outcome of a trial back: it counts as not done."""
        if not self._walk_taps.too_soon():
            await self._walk_taps.record_events((TakenBack, {"trial": trial}))

    async def record_heard(self, step_id: str, places: Sequence[str]) -> None:
        """Record where air was heard, with the brakes as in the hold of this step."""
        await self._walk_taps.record_events((Heard, {"step": step_id, "places": tuple(places)}))

    def study(self, walk: Walk) -> Study | None:
        """Give the wiring of this walk's vehicle; None where the rules of today cannot wire it."""
        if self._study is None or self._study[0] != walk.id:
            self._study = walk.id, lamps_study(walk, self._view.parts.library)
        return self._study[1]

    def air_study(self, walk: Walk) -> AirStudy | None:
        """Give the plumbing of this walk's vehicle; None where the rules of today lay none."""
        if self._air_study is None or self._air_study[0] != walk.id:
            self._air_study = walk.id, air_study(walk)
        return self._air_study[1]
