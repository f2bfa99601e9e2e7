"""The harness that screens are tested with does what it says, on a component of its own."""

from __future__ import annotations

import asyncio

import flet as ft
import pytest
from support.flet_harness import Screen, running, shown


@ft.component
def Counter(start: int) -> ft.Control:
    count, set_count = ft.use_state(start)
    word, set_word = ft.use_state("")
    asking, set_asking = ft.use_state(False)

    async def later() -> None:
        await asyncio.to_thread(lambda: None)
        set_count(100)

    def typed(event: ft.Event[ft.TextField]) -> None:
        set_word(str(event.control.value))

    ft.use_dialog(ft.AlertDialog(title="Really?") if asking else None)
    if count < 0:
        raise ValueError("below zero")
    return ft.Column(
        [
            ft.Semantics(label=f"count is {count}", content=ft.Text(str(count))),
            ft.Text("hidden", visible=False),
            ft.Button(
                content=ft.Text("One more"), key="more", on_click=lambda: set_count(count + 1)
            ),
            ft.Button("Below", on_click=lambda: set_count(-1)),
            ft.Button("Locked", disabled=True, on_click=lambda: set_count(0)),
            ft.Button("Later", on_click=later),
            ft.Button("Ask", on_click=lambda: set_asking(True)),
            ft.TextField(label="Name", key="name", on_change=typed),
            ft.Text(f"Hello {word}"),
        ]
    )


async def test_a_component_is_drawn_with_its_arguments() -> None:
    async with shown(Counter, 3) as screen:
        assert "3" in screen.texts()
        assert "One more" in screen.text


async def test_what_is_hidden_is_not_read() -> None:
    async with shown(Counter, 3) as screen:
        assert "hidden" not in screen.text


async def test_names_for_screen_readers_are_kept_apart_from_what_is_read() -> None:
    async with shown(Counter, 3) as screen:
        assert screen.names() == ["count is 3"]
        assert "count is 3" not in screen.texts()


async def test_a_tap_by_key_and_a_tap_by_words_both_reach_the_button() -> None:
    async with shown(Counter, 3) as screen:
        await screen.click("more")
        assert "4" in screen.texts()
        await screen.click("One more")
        assert "5" in screen.texts()


async def test_controls_are_listed_by_kind() -> None:
    async with shown(Counter, 3) as screen:
        assert next(button.key for button in screen.controls(ft.Button)) == "more"
        assert len(screen.controls(ft.TextField)) == 1


async def test_typing_reaches_the_field() -> None:
    async with shown(Counter, 3) as screen:
        await screen.fill("name", "Ada")
        assert "Hello Ada" in screen.texts()


async def test_a_dialog_is_read_once_it_opens() -> None:
    async with shown(Counter, 3) as screen:
        assert not screen.has("Really?")
        await screen.click("Ask")
        assert screen.has("Really?")


async def test_work_on_another_thread_can_be_awaited() -> None:
    async with shown(Counter, 3) as screen:
        await screen.click("Later")
        await screen.until(lambda: "100" in screen.texts())


async def test_a_missing_or_doubled_control_says_what_is_there() -> None:
    async with shown(Counter, 3) as screen:
        with pytest.raises(LookupError, match=r"(?s)0 controls are 'nowhere'.*One more"):
            screen.find("nowhere")


@pytest.mark.parametrize(("what", "why"), [("Locked", "disabled"), ("3", "takes no tap")])
async def test_what_cannot_be_tapped_is_not_tapped(what: str, why: str) -> None:
    async with shown(Counter, 3) as screen:
        with pytest.raises(LookupError, match=why):
            await screen.click(what)


async def test_a_page_that_freezes_fails_the_test() -> None:
    async with shown(Counter, 0) as screen:
        with pytest.raises(AssertionError, match="froze") as caught:
            await screen.click("Below")
        assert isinstance(caught.value.__cause__, ValueError)


async def test_an_error_in_a_handler_fails_the_test() -> None:
    def main(page: ft.Page) -> None:
        def wrong() -> None:
            raise ValueError("wrong")

        page.add(ft.Button("Wrong", on_click=wrong))

    async with running(main) as screen:
        with pytest.raises(AssertionError, match="crashed: wrong"):
            await screen.click("Wrong")


async def test_keys_and_client_methods_are_seen() -> None:
    pressed: list[str] = []

    async def main(page: ft.Page) -> None:
        clipboard = ft.Clipboard()
        page.on_keyboard_event = lambda event: pressed.append(event.key)

        async def copy() -> None:
            await clipboard.set("psi")
            page.add(ft.Text("copied"))

        page.add(ft.Button("Copy", on_click=copy))

    async with running(main) as screen:
        await screen.press("Page Down")
        assert pressed == ["Page Down"]
        await screen.click("Copy")
        assert screen.has("copied")
        assert [(call.control, call.method) for call in screen.invoked] == [("Clipboard", "set")]


async def test_a_stale_control_can_be_tapped_and_changes_nothing_by_itself() -> None:
    @ft.component
    def Steps() -> ft.Control:
        step, set_step = ft.use_state(1)
        return ft.Column(
            [ft.Button(f"Step {step}", key=f"step_{step}", on_click=lambda: set_step(step + 1))]
        )

    async with shown(Steps) as screen:
        old = screen.target("step_1")
        await screen.tap(old)
        assert screen.has("step_2")
        await screen.tap(old)
        assert screen.has("step_2")


async def test_endless_effects_end_with_the_screen() -> None:
    ticks: list[int] = []

    @ft.component
    def Ticking() -> ft.Control:
        async def tick() -> None:
            while True:
                ticks.append(1)
                await asyncio.sleep(0.001)

        ft.use_effect(tick, [])
        return ft.Text("ticking")

    async with shown(Ticking) as screen:
        assert isinstance(screen, Screen)
        assert ticks
    seen = len(ticks)
    await asyncio.sleep(0)
    assert len(ticks) == seen
    assert len(asyncio.all_tasks()) == 1
