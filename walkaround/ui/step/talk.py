"""The zone that is held while one talks, with what can be said now or what was heard last."""

from __future__ import annotations

import flet as ft

from walkaround.plan.steps import Step
from walkaround.spoken_answers.phrases import PHRASES, Meaning
from walkaround.ui.kit.parts import notice
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, LINE, RADIUS, SMALL, Tone
from walkaround.ui.page.step_keys import spoken_answers_on, talk_px
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps

_SHOWN: tuple[Meaning, ...] = ("yes", "ok", "defect", "start", "next", "take", "on", "again")
"""What is worth reading on the zone, the first two of them that count; the page of keys has all."""


def talk_zone(view: View, taps: WalkTaps, step: Step) -> list[ft.Control]:
    """Show the zone, or why there is none; nothing if switched off or while listening for air."""
    spoken, words = taps.spoken_taps, view.words
    microphone = spoken.microphone
    if not spoken_answers_on(view) or step.quiet:
        return []
    if microphone.trouble:
        return [
            notice(words(f"speech-{microphone.trouble.replace('_', '-')}"), key="speech_trouble")
        ]
    if not microphone.live:
        return [label(words("speech-opening"), size=SMALL, key="speech_opening")]
    tone = Tone.ACCENT if microphone.is_held else Tone.PLAIN
    title = words("speech-listening" if microphone.is_held else "speech-hold")
    lines = [label(title, tone.ink, BODY, bold=True, max_lines=1)]
    if spoken.reply:
        lines = [label(spoken.reply, tone.ink, BODY, bold=True, max_lines=2)]
    elif example := spoken.number_example:
        how = words("speech-say-number", example=example)
        lines.append(label(how, tone.ink, SMALL, max_lines=1))
    else:
        examples = [PHRASES[each] for each in _SHOWN if each in spoken.offered][:2]
        lines.append(label(" / ".join(examples), tone.ink, SMALL, max_lines=1))
    text_column = ft.Column(list(lines), spacing=0, tight=True, expand=True)
    face = ft.Container(
        ft.Row([ft.Icon(ft.Icons.MIC, size=32, color=tone.ink), text_column], spacing=10),
        bgcolor=tone.ground,
        border=ft.Border.all(1, LINE),
        border_radius=RADIUS,
        height=talk_px(view) - 10.0,
        padding=ft.Padding.symmetric(horizontal=14, vertical=2),
    )

    async def press() -> None:
        await microphone.hold(True)

    async def let_go() -> None:
        await microphone.hold(False)

    # A drag begins with the touch itself, and a thumb that slides does not let go.
    return [
        ft.GestureDetector(
            content=face, key="talk", on_pan_down=press, on_pan_end=let_go, on_pan_cancel=let_go
        )
    ]
