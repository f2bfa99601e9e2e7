"""What a phone is and can do: its size, staying awake, vibrating, storing its settings.

A browser may have none of these, or allow none: nothing waits long for them or fails for them.
"""

from __future__ import annotations

import asyncio
import json
import logging
from collections.abc import Awaitable, Callable, Mapping

import flet as ft

from walkaround.drawing.palette import DARK, LIGHT
from walkaround.ui.kit.scale import Sight
from walkaround.ui.kit.theme import COLUMN_PX, LOW_PX, LOW_TOUCH, TOUCH, flet_theme
from walkaround.ui.page.keyboard import Keyboard

log = logging.getLogger(__name__)

TEXT_KEY = "walkaround.text_percent"
"""The key under which a phone keeps the size of its text; `assets/index.html` draws it so."""
UNLINKED_KEY = "walkaround.no_link"
"""The key under which it keeps what `assets/index.html` says while the server cannot be reached."""
STILL_KEY = "walkaround.still"
"""The key under which `assets/index.html` keeps whether the phone is set to show little motion."""
SETTINGS_KEY, NAME_KEY = "walkaround.settings", "walkaround.name"
"""The key under which a phone keeps its settings, and once kept its owner's name."""
_MEASURE_PX = 100
"""Height of the line that is measured, at a scale of 1."""
MOST_SCALE = 2.0
"""Largest text, percent: WCAG 2.2, success criterion 1.4.4, asks for this much."""
FLAT_PX = 560
"""A wide page lower than this is a phone on its side."""
WIDE_PX = 840
"""From this width on, plan and words stand side by side."""


class Device:
    """One page's phone; made while that page is Flet's present one.

    Attributes:
        height: of the page on it, logical pixels.
        dark: whether it shows dark colors of itself.
        motion: whether pictures may move on it; None until `stored` was asked.
        keyboard: the keys that it has learned.
    """

    def __init__(self, page: ft.Page, answers_in_s: float, recalls_in_s: float) -> None:
        """Take the phone that shows this page.

        Args:
            answers_in_s: so long its answers are waited for.
            recalls_in_s: so long they are for its settings: a phone that has just
                loaded the page is slow.
        """
        self._answers_in_s, self._recalls_in_s = answers_in_s, recalls_in_s
        self.height = float(page.height or 915)
        self.dark = page.platform_brightness == ft.Brightness.DARK
        self.motion: bool | None = None
        self._unlinked = ""
        self._page, self._sight = page, Sight(width_px=float(page.width or 412))
        page.data = self._sight
        page.theme, page.dark_theme = flet_theme(LIGHT), flet_theme(DARK)
        self._wakelock = ft.Wakelock()
        self._haptics = ft.HapticFeedback()
        self._kept = ft.SharedPreferences()
        self.keyboard = Keyboard(self._text_kept, self._keep_text)

    @property
    def width(self) -> float:
        """Width of the page on it, logical pixels."""
        return self._sight.width_px

    @property
    def wide(self) -> bool:
        """Whether there is room for two columns."""
        return self.width >= WIDE_PX

    @property
    def flat(self) -> bool:
        """Whether it is a phone that lies on its side: two columns, and no height."""
        return self.wide and self.height < FLAT_PX

    @property
    def low(self) -> bool:
        """Whether the page is a small phone's."""
        return self.height < LOW_PX

    @property
    def answer_px(self) -> int:
        """Height of an answer zone on it."""
        return LOW_TOUCH if self.low else TOUCH

    @property
    def column_px(self) -> float:
        """Width of the one column that everything stands in."""
        return min(float(COLUMN_PX), self.width)

    def resize(self, width: float, height: float) -> None:
        """Take note of another size of the page."""
        self._sight.width_px, self.height = width, height

    @property
    def text_scale(self) -> float:
        """How many times larger than asked for it draws text."""
        return self._sight.scale

    def enlarge(self, scale: float) -> bool:
        """Take note of how large it draws text; return whether that is news."""
        before, self._sight.scale = self._sight.scale, min(MOST_SCALE, max(1.0, scale))
        return before != self._sight.scale

    def darken(self, dark: bool) -> None:
        """Take note that the phone changed its own colors."""
        self.dark = dark

    def set_dark(self, dark: bool | None) -> None:
        """Show dark colors or light ones; with None those that the phone itself shows."""
        mode = {None: ft.ThemeMode.SYSTEM, True: ft.ThemeMode.DARK, False: ft.ThemeMode.LIGHT}[dark]
        if self._page.theme_mode != mode:
            self._page.theme_mode = mode
            self._page.update()

    def name_page(self, title: str) -> None:
        """Set the page's title, in the browser's tab and for screen readers."""
        if self._page.title != title:
            self._page.title = title
            self._page.update()

    async def stay_awake(self, awake: bool) -> None:
        """Keep the screen on, or let it go dark again."""
        await self._asked(self._wakelock.enable if awake else self._wakelock.disable)

    async def vibrate(self) -> None:
        """Vibrate briefly."""
        await self._asked(self._haptics.vibrate)

    async def stored(self) -> dict[str, object] | None:
        """Return the settings stored on the phone, by name; None if it does not say."""
        # Earlier versions kept the name alone.
        keys = (STILL_KEY, SETTINGS_KEY, NAME_KEY)
        try:
            async with asyncio.timeout(self._recalls_in_s):
                still, text, name = [await self._kept.get(key) for key in keys]
        except Exception as refused:
            log.info("the browser did not say what it stores: %s", refused)
            return None
        self.motion = still is not True
        with_name: dict[str, object] = {"who": name} if name and isinstance(name, str) else {}
        try:
            values = json.loads(text) if text and isinstance(text, str) else {}
        except ValueError:
            values = {}
        return {**with_name, **values} if isinstance(values, dict) else with_name

    async def store(self, values: Mapping[str, object]) -> bool:
        """Store these settings on the phone for good; return whether it did."""
        return await self._keep_text(SETTINGS_KEY, json.dumps(dict(values)))

    async def keep_unlinked(self, settings: Mapping[str, str]) -> None:
        """Have these words said by the page itself while the server cannot be reached."""
        if self._unlinked != (text := json.dumps(dict(settings))):
            self._unlinked = text
            await self._keep_text(UNLINKED_KEY, text)

    async def _text_kept(self, key: str) -> str:
        text = await self._asked(lambda: self._kept.get(key))
        return text if isinstance(text, str) else ""

    async def _keep_text(self, key: str, text: str) -> bool:
        return await self._asked(lambda: self._kept.set(key, text)) is True

    async def keep_ticket(self, key: str, ticket: str) -> None:
        """Tell the script in the page by which ticket its microphone is to be heard, or by none."""
        await self._keep_text(key, ticket)

    async def text_percent(self) -> int:
        """Tell how large text was chosen to be on it, percent."""
        percent = await self._asked(lambda: self._kept.get(TEXT_KEY))
        return int(percent) if isinstance(percent, (int, float)) else 100

    async def keep_text_percent(self, percent: int) -> None:
        """Draw text so large from now on."""
        await self._asked(lambda: self._kept.set(TEXT_KEY, percent))

    async def _asked(self, call: Callable[[], Awaitable[object]]) -> object:
        try:
            return await asyncio.wait_for(call(), self._answers_in_s)
        except Exception as refused:
            log.info("the browser did not: %s", refused)
            return None


def text_measure(device: Device, redraw: Callable[[], None]) -> ft.Control:
    """Make an unseen line, by whose height the page tells how large it draws text."""

    def measured(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if device.enlarge(round(event.height / _MEASURE_PX, 2)):
            redraw()

    line = ft.Text(
        "",
        size=_MEASURE_PX,
        style=ft.TextStyle(height=1.0),
        max_lines=1,
        on_size_change=measured,
    )
    return ft.Container(line, left=0, top=0, opacity=0, ignore_interactions=True)
