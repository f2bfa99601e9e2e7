"""Something that nobody foresaw goes wrong: one sentence, a log entry, and the page goes on."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen
from support.walks import hold_rule, plan, step

import walkaround.ui
from walkaround.records.open_walks import OpenWalks
from walkaround.ui.page.device import Device
from walkaround.ui.page.sound import _silence
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import HoldTaps
from walkaround.ui.taps.speaker import Speaker
from walkaround.ui.taps.walk import WalkTaps

LOOK = step("look", "connect", "look", title="Look", short="Look at it.")
VENT = step("vent", "finish", "act", title="Vent")


def broken(*_: object, **__: object) -> None:
    raise RuntimeError("broken on purpose")


async def broken_work(*_: object, **__: object) -> None:
    broken()


async def shows(screen: Screen, seconds: str) -> None:
    """Wait until the running hold shows these seconds."""
    await screen.until(lambda: screen.find("seconds_left").value == seconds)


async def test_a_tap_that_raises_says_so_and_the_next_one_works(
    depot: App, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        with monkeypatch.context() as patched:
            patched.setattr(WalkTaps, "record_events", broken_work)
            await screen.click("ok")
        assert ENGLISH("page-failed") in screen.texts()
        assert "Traceback" not in screen.text
        assert "broken on purpose" in caplog.text
        await screen.click("ok")
        await screen.until(lambda: "Vent" in screen.texts())
        assert ENGLISH("page-failed") not in screen.texts()


@pytest.mark.parametrize(
    ("event", "data", "owner", "name", "fault"),
    [
        ("resize", {"width": 700.0, "height": 900.0}, Device, "resize", broken),
        ("route_change", {"route": "/records"}, View, "arrive", broken),
        (
            "platform_brightness_change",
            "dark",
            Device,
            "dark",
            property(lambda _: False, broken),
        ),
    ],
)
async def test_an_event_of_the_page_that_raises_says_so(
    depot: App,
    monkeypatch: pytest.MonkeyPatch,
    event: str,
    data: object,
    owner: type,
    name: str,
    fault: object,
) -> None:
    async with depot.page() as screen:
        with monkeypatch.context() as patched:
            patched.setattr(owner, name, fault, raising=False)
            await screen.fire(screen.page, event, data)
        assert ENGLISH("page-failed") in screen.texts()


async def test_work_of_a_screen_that_raises_says_so_and_is_logged(
    depot: App, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    walk_id = depot.begin("sandbag_semitrailer_7", scope="lamps", together=True)
    library_step = next(
        each for each in depot.parts.open_walks.walk(walk_id).steps if each.id == "look_1_rear"
    )
    monkeypatch.setattr(Speaker, "unheard_s", broken)
    many = depot.parts.open_walks.begin(plan((library_step, VENT)), "Kim")
    async with depot.page(f"/walk/{many}") as screen:
        await screen.until(lambda: ENGLISH("page-failed") in screen.texts())
        assert "broken on purpose" in caplog.text


async def test_a_beat_of_a_hold_that_raises_is_logged_and_the_hold_goes_on(
    depot: App, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    rule = hold_rule(supply=110.0)
    steps = (step("hold", "supply_hold", "hold", title="Hold", air=True, hold=rule), VENT)
    walk_id = depot.parts.open_walks.begin(plan(steps), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("start_hold")
        await screen.until(lambda: screen.has("read_110"))
        with monkeypatch.context() as patched:
            patched.setattr(HoldTaps, "_cue", broken_work)
            for left in ("29", "28"):
                depot.clock.wait(1)
                await shows(screen, left)
        assert caplog.text.count("RuntimeError: broken on purpose") == 1
        depot.clock.wait(28)
        await shows(screen, "30")
        assert depot.voice.said[-1] == "30 seconds. Read the supply gauge."


async def test_a_control_that_cannot_be_sent_does_not_freeze_the_page(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        with monkeypatch.context() as patched:
            patched.setattr(screen.page.session, "patch_control", broken)
            with pytest.raises(AssertionError, match="the page froze"):
                await screen.click("menu")
        await screen.click("note")
        assert screen.has("note_text")


@pytest.mark.parametrize("torn", [b"", b"RIFF", _silence()[:30], None])
async def test_a_clip_that_is_torn_or_gone_by_the_time_it_is_played_takes_no_time(
    depot: App, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, torn: bytes | None
) -> None:
    clip = tmp_path / "clip.wav"
    if torn is not None:
        clip.write_bytes(torn)
    monkeypatch.setattr(type(depot.voice), "file", lambda *_: clip)
    async with depot.page(
        f"/walk/{depot.parts.open_walks.begin(plan((LOOK, VENT)), 'Kim')}"
    ) as screen:
        await screen.click("again")
        assert ENGLISH("page-failed") not in screen.texts()
    assert depot.voice.said == ["Look at it."] * 2


def test_every_component_and_every_effect_goes_through_the_guard() -> None:
    """No other module of the screens makes a component or an effect of its own."""
    bare = {"component", "use_effect", "on_mounted", "on_updated", "run_task"}
    found = [
        (path.name, node.attr)
        for path in Path(walkaround.ui.__path__[0]).rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute)
        and node.attr in bare
        and isinstance(node.value, ast.Name)
    ]
    assert sorted(found) == [("guard.py", "component"), ("guard.py", "use_effect")]


async def test_what_a_walk_has_lost_stands_in_its_record(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    lost = f"The file of walk {walk_id} was damaged."
    monkeypatch.setattr(OpenWalks, "notice", lambda *_: lost)
    async with depot.page(f"/record/{walk_id}") as screen:
        assert lost in screen.texts()
