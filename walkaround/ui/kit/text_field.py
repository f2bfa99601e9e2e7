"""Fields for one line of text, all of one look."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

import flet as ft

from walkaround.ui.kit.theme import BODY, LINE


def framed_border() -> ft.InputBorder:
    """Make the thin frame that every field has."""
    return ft.OutlineInputBorder(side=ft.BorderSide(1, LINE))


def text_field(
    words: str,
    text: str,
    most_chars: int,
    *,
    key: str,
    change: Callable[[str], None] | None = None,
    leave: Callable[[str], Awaitable[None]] | None = None,
    digits: bool = False,
    icon: ft.IconData | None = None,
) -> ft.TextField:
    """Make a field for one line.

    Args:
        words: what is typed there.
        text: what stands there at first.
        most_chars: more are not taken, not even of what a page of somebody else's sends.
        key: of the control.
        change: gets the text at each keystroke; such a field is kept with `use_memo`, or what is
            typed while it is drawn anew is lost.
        leave: gets the text when the field is left or Enter is pressed.
        digits: only digits are typed.
        icon: before the text.
    """

    def changed(e: ft.Event[ft.TextField]) -> None:
        assert change is not None
        change((e.control.value or "")[:most_chars])

    async def left(e: ft.Event[ft.TextField]) -> None:
        assert leave is not None
        await leave((e.control.value or "")[:most_chars])

    return ft.TextField(
        label=words,
        value=text,
        max_length=most_chars,
        counter="",
        input_filter=ft.InputFilter(r"^[0-9]*") if digits else None,
        keyboard_type=ft.KeyboardType.NUMBER if digits else ft.KeyboardType.TEXT,
        on_change=changed if change else None,
        on_blur=left if leave else None,
        on_submit=left if leave else None,
        prefix_icon=icon,
        text_size=BODY,
        border=framed_border(),
        key=key,
    )
