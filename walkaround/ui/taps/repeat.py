"""Saying a step again by itself when nothing was heard or done for the time chosen."""

from __future__ import annotations

import asyncio

from walkaround.base.errors import WalkaroundError
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps

MOST_REPEATS = 3
"""A phone that was left on a bench talks no longer."""


async def repeat(view: View, taps: WalkTaps) -> None:
    """Say the step on screen again after each silence; ends when anything else is shown.

    A step at which one listens stays silent, also by ear at the brakes, and so does whatever is
    open over a step. Where air blows out the phone is felt instead.
    """
    silence_s = view.settings.repeat_s
    try:
        step = taps.shown_step() if view.walk_id else None
        listens = step is not None and (step.quiet or view.somebody_in())
        is_asked = step is not None and not listens and view.walk.phase == "stepping"
    except WalkaroundError:
        return  # the screen says why the walk cannot be opened
    if not (silence_s and is_asked and view.settings.voice) or view.panel or view.in_cab:
        return
    for _ in range(MOST_REPEATS):
        while (left_s := silence_s - view.sound.silent_s) > 0:
            await asyncio.sleep(min(left_s, silence_s))
        if step is not None and step.vents:
            await view.device.vibrate()
            await asyncio.sleep(silence_s)
        else:
            await taps.speak()
