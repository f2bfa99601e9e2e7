"""What a tap does that tells of a repair, and what is said of a recheck that was not OK."""

from __future__ import annotations

from walkaround.records.open_walks import Change
from walkaround.repairs.effects import to_recheck
from walkaround.repairs.repair_options import RepairOption, repair_options_at
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import WalkForHolds
from walkaround.ui.taps.causes import CauseTaps
from walkaround.walk.events import Answered, Repaired, Revisited
from walkaround.walk.state import FAULTS, Defect, Walk
from walkaround.walk.transitions import recheck_stands
from walkaround.words.answers import given_word, seen_words


class RepairTaps:
    """The repairs of one page's walk."""

    def __init__(self, view: View, walk_taps: WalkForHolds, causes: CauseTaps) -> None:
        self._view = view
        self._walk_taps = walk_taps
        self._causes = causes

    def options_at(self, walk: Walk, defect: Defect) -> tuple[RepairOption, ...]:
        """List what may have been done about this defect."""
        step = next(step for step in walk.steps if step.id == defect.step)
        likely = self._causes.leaks(walk) if step.hold else self._causes.causes(walk)
        return repair_options_at(
            step, defect.found, [cause for cause, _ in likely.likely] if likely else []
        )

    async def record_repair(self, step_id: str, option: RepairOption) -> None:
        """Record a repair; the steps it can have changed are due, and asked now where possible."""
        view = self._view
        walk = view.walk
        if self._walk_taps.too_soon() or not walk.is_open(step_id):
            return
        rechecks = to_recheck(walk, walk.defects[step_id], option.id, self._causes.study(walk))
        body = {"step": step_id, "done": option.id, "what": option.what, "again": rechecks}
        if not self.asks_now(walk, step_id):
            if await self._walk_taps.record_events((Repaired, body)):
                view.open("" if walk.phase == "finished" else "defects")
            return
        revisit: Change = (Revisited, {"step": step_id, "purpose": "recheck"})
        if await self._walk_taps.record_events((Repaired, body), revisit):
            await self._walk_taps.look_back("")

    def asks_now(self, walk: Walk, step_id: str) -> bool:
        """Tell whether a repaired step is asked again at once: not if its air had to be let out."""
        step = next(step for step in walk.steps if step.id == step_id)
        return walk.phase == "stepping" and not step.charged and recheck_stands(walk, step_id)

    def say_change(self, before: Answered | None, walk: Walk, step_id: str) -> str:
        """Say what changed in a recheck that was not OK; nothing after any other answer."""
        now = walk.answers.get(step_id)
        step = walk.plan.step(step_id) if walk.plan else None
        if step is None or before is None or now is None or now.answer not in FAULTS:
            return ""
        words = self._view.words
        was, is_now = (
            seen_words(step, answered.seen, words) or given_word(step, answered, words)
            for answered in (before, now)
        )
        return words("recheck-not-cured", step=step.title, before=was, now=is_now)
