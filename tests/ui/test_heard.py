"""What is understood by ear: short sounds, what is said to its end, a round summed up, repeats."""

from __future__ import annotations

import asyncio
import inspect
import io
import re
import tomllib
import wave
from pathlib import Path

import pytest
from support.app import App, RecordingVoice
from support.english import ENGLISH
from support.tapping import tap, walk_of
from support.walks import STEPS, begun, plan, step

from walkaround.disk.locations import shipped
from walkaround.rules.limits import WaitRule
from walkaround.ui.page.sound import SOFT, Sound
from walkaround.voice.earcons import Earcon
from walkaround.walk.events import Answered
from walkaround.words.answers import round_words

LOOK = step("look", "connect", "look", title="Look", short="Look at it.")
VENT = step("vent", "finish", "act", title="Vent", short="Vent it.")
SET = step("set", "finish", "look", title="Set", short="Brakes set?")
WAIT = step("stays", "leave", "wait", title="Stays", wait=WaitRule(after="set", seconds=60.0))


@pytest.fixture
def cues(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Earcon, bool]]:
    """Every short sound that was played, and whether it was soft."""
    played: list[tuple[Earcon, bool]] = []

    async def cue(sound: Sound, earcon: Earcon, *, soft: bool = False) -> None:
        played.append((earcon, soft or sound._near()))

    monkeypatch.setattr(Sound, "cue", cue)
    return played


def clip(seconds: float) -> bytes:
    made = io.BytesIO()
    with wave.open(made, "wb") as out:
        out.setparams((1, 1, 1000, 0, "NONE", ""))
        out.writeframes(b"\x80" * round(1000 * seconds))
    return made.getvalue()


class _Time:
    """The event loop's time as the sound sees it: it passes only while something sleeps."""

    def __init__(self) -> None:
        self.now_s = 0.0

    def get_running_loop(self) -> _Time:
        return self

    def time(self) -> float:
        return self.now_s

    async def sleep(self, seconds: float) -> None:
        self.now_s += seconds
        await asyncio.sleep(0)


async def test_what_is_needed_is_heard_to_its_end_before_anything_else_begins(
    depot: App, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "clip.wav").write_bytes(clip(0.2))
    monkeypatch.setattr(RecordingVoice, "file", lambda *_: tmp_path / "clip.wav")
    monkeypatch.setattr("walkaround.ui.page.sound.STARTS_S", 0.0)
    async with depot.page("/"):
        clock, sound = _Time(), _sound(depot)
        monkeypatch.setattr("walkaround.ui.page.sound.asyncio", clock)
        await sound.cue("ok")
        await sound.say("OK", needed=True)
        assert clock.now_s == pytest.approx(0.11)
        old, new = (asyncio.create_task(sound.say(text)) for text in ("an old step", "a new one"))
        assert await old == 0.0
        assert await new == pytest.approx(0.2)
        assert clock.now_s == pytest.approx(0.31)


def _sound(depot: App) -> Sound:
    return Sound(depot.parts.voice, lambda: ENGLISH, depot.parts.settings, lambda: False)


async def test_no_short_sound_is_played_where_sound_is_off(depot: App) -> None:
    depot.parts.store.change_settings({"voice": False})
    async with depot.page("/"):
        sound = _sound(depot)
        await sound.cue("ok")
        assert sound._audio.src == _sound(depot)._audio.src


async def test_what_is_not_saved_is_heard_and_so_is_what_is_saved_after_it(
    depot: App, cues: list[tuple[Earcon, bool]], monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        with monkeypatch.context() as broken:
            broken.setattr("os.fsync", _full)
            await screen.click("ok")
            await screen.until(lambda: screen.has("unsaved"))
        assert cues == [("not_saved", False)]
        await tap(depot, screen, walk_id, "ok")
        assert cues[1:] == [("saved", False)]


def _full(*_: object) -> None:
    raise OSError(28, "No space left on device")


async def test_a_time_that_is_up_is_heard_once(depot: App, cues: list[tuple[Earcon, bool]]) -> None:
    walk_id = depot.parts.open_walks.begin(plan((SET, VENT, WAIT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.until(lambda: screen.has("strip"))
        assert cues == []
        depot.clock.wait(61)
        await screen.until(lambda: bool(cues))
        await tap(depot, screen, walk_id, "ok")
        await screen.until(lambda: screen.has("left"))
        assert cues == [("time", False)]


@pytest.mark.parametrize("flag", ["quiet", "soft"])
async def test_no_time_is_heard_to_be_up_while_one_listens(
    depot: App, cues: list[tuple[Earcon, bool]], flag: str
) -> None:
    listen = VENT.model_copy(update={flag: True})
    walk_id = depot.parts.open_walks.begin(plan((SET, listen, WAIT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.until(lambda: screen.has("strip"))
        depot.clock.wait(61)
        await screen.until(lambda: screen.find("strip").value.endswith("the time is up"))
        assert cues == []


async def test_a_step_is_said_again_after_the_silence_chosen_and_not_for_ever(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    depot.parts.store.change_settings({"repeat_s": 1})
    monkeypatch.setattr(Sound, "silent_s", property(lambda _: 2.0))
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.settle()
        assert depot.voice.said.count("Look at it.") == 4
        await tap(depot, screen, walk_id, "ok")
        assert depot.voice.said.count("Vent it.") == 4


@pytest.mark.parametrize(("repeat_s", "flag"), [(0, ""), (1, "quiet"), (1, "soft")])
async def test_a_step_is_not_said_again_unasked_nor_where_one_listens(
    depot: App, monkeypatch: pytest.MonkeyPatch, repeat_s: int, flag: str
) -> None:
    depot.parts.store.change_settings({"repeat_s": repeat_s})
    monkeypatch.setattr(Sound, "silent_s", property(lambda _: 2.0))
    look = LOOK.model_copy(update={flag: True} if flag else {})
    walk_id = depot.parts.open_walks.begin(plan((look, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.settle()
        assert depot.voice.said.count("Look at it.") == 1


def test_every_step_that_tells_to_listen_is_quiet_or_is_done_at_the_brakes() -> None:
    listening = {
        step["id"]: step.get("quiet") or step.get("soft")
        for file in shipped().glob("*.toml")
        for step in tomllib.loads(file.read_text("utf-8")).get("step", [])
        if re.search(r"\b([Ll]isten|hiss)", " ".join(map(str, step.values())))
    }
    assert {"blue_quiet", "booster_seen", "lines_off", "hand_valve"} < set(listening)
    assert [id_ for id_, muted in listening.items() if not muted] == []


PLAYS = {"say": ("Look at it.",), "cue": ("ok",), "hiss": ()}
"""Every way to play a sound, with what is played."""


@pytest.mark.parametrize("near", [True, False])
async def test_every_way_to_play_a_sound_is_soft_while_somebody_is_in_at_the_brakes(
    depot: App, near: bool
) -> None:
    ways = {
        name
        for name, way in vars(Sound).items()
        if inspect.iscoroutinefunction(way) and not name.startswith("_")
    }
    assert ways == set(PLAYS)
    for way, played in PLAYS.items():
        async with depot.page("/"):
            sound = Sound(depot.parts.voice, lambda: ENGLISH, depot.parts.settings, lambda: near)
            heard: list[float] = []
            sound.on_play = heard.append
            await getattr(sound, way)(*played)
            assert len(heard) == 1
            loudness = depot.parts.settings().volume * (SOFT if near else 1.0)
            assert sound._audio.volume == pytest.approx(loudness)


async def test_nothing_that_happens_at_a_step_at_the_brakes_is_loud(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    play, loudness = Sound._play, dict[str, float]()

    async def playing(sound: Sound, address: str, *args: object, **kwargs: object) -> bool:
        played = await play(sound, address, *args, **kwargs)  # type: ignore[arg-type]
        loudness[address] = max(loudness.get(address, 0.0), sound._audio.volume)
        return played

    inside = LOOK.model_copy(update={"soft": True})
    walk_id = depot.parts.open_walks.begin(plan((SET, inside, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        monkeypatch.setattr(Sound, "_play", playing)
        await screen.click("again")
        await screen.click("note")
        await screen.fill("note_text", "Rubbed through")
        await tap(depot, screen, walk_id, "save_note")
        with monkeypatch.context() as broken:
            broken.setattr("os.fsync", _full)
            await screen.click("ok")
            await screen.until(lambda: screen.has("unsaved"))
        # Going back to what was done from outside brings nobody out.
        await screen.click("back")
        await screen.click("again")
        await tap(depot, screen, walk_id, "ok")
        assert {"/earcons/saved.wav", "/earcons/not_saved.wav"} < set(loudness)
        assert max(loudness.values()) <= depot.parts.settings().volume * SOFT
        await tap(depot, screen, walk_id, "ok")
        await screen.until(lambda: max(loudness.values()) == depot.parts.settings().volume)


async def test_where_air_blows_out_a_large_word_is_seen_and_the_phone_is_felt(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    depot.parts.store.change_settings({"repeat_s": 1})
    monkeypatch.setattr(Sound, "silent_s", property(lambda _: 2.0))
    vent = VENT.model_copy(update={"vents": True})
    walk_id = depot.parts.open_walks.begin(plan((vent, LOOK)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert screen.find("vents").value == "Air out"
        await screen.until(lambda: any(call.method == "vibrate" for call in screen.invoked))
        assert depot.voice.said.count("Vent it.") == 1


async def test_a_silence_is_chosen_in_the_settings(depot: App) -> None:
    async with depot.page("/settings") as screen:
        await screen.click("repeat_30")
        assert depot.parts.settings().repeat_s == 30


ROUND = tuple(each.model_copy(update={"round": 1}) if each.power else each for each in STEPS)


def test_a_round_is_summed_up_when_its_last_look_is_answered() -> None:
    teller = begun(plan(ROUND))
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    assert round_words(teller.walk, ROUND[1], ENGLISH) == ""
    teller.tell(Answered, step="backup_rear", answer="not_checked", reason="no_power")
    teller.ok("reflectors_rear")
    said = "Lamps done: 1 defect, tail_rear: tail left dark; 1 look not checked."
    assert round_words(teller.walk, ROUND[3], ENGLISH) == said
    # Not once more when an earlier look is repeated.
    teller.back("tail_rear")
    teller.found("tail_rear", tail_left="dim")
    assert round_words(teller.walk, ROUND[1], ENGLISH) == ""


def test_a_round_of_several_is_named_and_one_without_a_defect_is_short() -> None:
    teller = begun(plan(ROUND).model_copy(update={"rounds": 2}))
    teller.ok("chocks", "tail_rear", "backup_rear", "reflectors_rear")
    assert round_words(teller.walk, ROUND[3], ENGLISH) == "Round 1 done: no defect."


async def test_after_a_round_its_sum_is_said_before_the_next_step(depot: App) -> None:
    lamps = step("tail", "lamps", "lamp", round=1)
    walk_id = depot.parts.open_walks.begin(plan((lamps, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.until(lambda: "Vent it." in depot.voice.said)
        assert depot.voice.said[-2:] == ["Lamps done: no defect.", "Vent it."]
        assert walk_of(depot, walk_id).here is not None
