"""A phone's line: open only while its button is held and the phone itself is silent."""

from __future__ import annotations

from dataclasses import dataclass, field

from support.scripted_recognition import Listening, ScriptedProcess, clear

from walkaround.recognition.audio_streams import AudioStream, AudioStreams, Vocabulary
from walkaround.recognition.frames import BYTES_A_SECOND

CHUNK = b"\1" * (BYTES_A_SECOND // 25)


@dataclass
class Set:
    """A line with its two ends, and the clock that it goes by."""

    page: Listening = field(default_factory=Listening)
    process: ScriptedProcess = field(default_factory=ScriptedProcess)
    now_s: float = 100.0

    def __post_init__(self) -> None:
        recognition = AudioStreams(self.process, installed=True, now_s=lambda: self.now_s)
        self.stream: AudioStream = recognition.open(self.page)

    def hears(self, seconds: float) -> None:
        for _ in range(round(seconds * 25)):
            self.stream.sound(CHUNK)
            self.now_s += 0.04


def test_no_sound_goes_on_before_the_press_and_half_a_second_of_it_is_kept() -> None:
    here = Set()
    here.hears(10)
    assert (here.process.done, here.process.sound_bytes) == ([], 0)
    here.stream.hold(True)
    assert here.process.done == ["begun"]
    assert len(here.process.before) == BYTES_A_SECOND // 2
    here.hears(1)
    assert here.process.sound_bytes == 25 * len(CHUNK)
    here.stream.hold(False)
    assert here.process.done == ["begun", "released"]


def test_what_was_said_reaches_the_page_and_ends_the_press() -> None:
    here = Set()
    here.stream.hold(True)
    on_heard = here.process.on_heard
    assert on_heard is not None
    on_heard(clear("Something is wrong"))
    sent = here.process.sound_bytes
    here.hears(1)
    assert here.process.sound_bytes == sent
    assert here.page.told == ["pressed", "Something is wrong"]


def test_a_press_while_the_phone_plays_waits_until_that_has_died_away() -> None:
    here = Set()
    here.stream.shut(2.0)
    here.stream.hold(True)
    here.hears(2.0)
    assert here.process.done == []
    here.hears(0.5)
    assert here.process.done == ["begun"]
    assert len(here.process.before) == 0


def test_a_clip_that_begins_in_the_middle_of_a_press_ends_that() -> None:
    here = Set()
    here.stream.hold(True)
    here.hears(0.2)
    here.stream.playing(True)
    here.hears(0.2)
    assert here.process.done == ["begun", "dropped"]


def test_the_page_s_own_word_keeps_a_line_shut_that_the_clip_s_length_would_open() -> None:
    here = Set()
    here.stream.playing(True)
    here.stream.shut(0.1)
    here.stream.hold(True)
    here.hears(5)
    assert here.process.done == []
    here.stream.playing(False)
    here.hears(0.5)
    assert here.process.done == ["begun"]


def test_nothing_is_begun_where_nothing_can_be_said() -> None:
    here = Set(page=Listening(vocabulary=Vocabulary(())))
    here.stream.hold(True)
    here.hears(1)
    here.stream.hold(False)
    assert here.process.done == []


def test_a_phone_that_is_gone_says_nothing_more() -> None:
    here = Set()
    here.stream.hold(True)
    here.stream.left()
    assert here.process.done == ["begun", "dropped"]


def test_a_process_that_ended_is_told_as_trouble() -> None:
    here = Set()
    here.stream.hold(True)
    on_heard = here.process.on_heard
    assert on_heard is not None
    on_heard(None)
    assert here.page.told[-1] == "stopped"


def test_a_line_is_found_by_its_ticket_until_it_is_ended() -> None:
    recognition = AudioStreams(ScriptedProcess(), installed=True)
    stream, other = recognition.open(Listening()), recognition.open(Listening())
    assert stream.ticket != other.ticket
    assert len(stream.ticket) >= 32
    assert recognition.stream(stream.ticket) is stream
    recognition.end(stream)
    assert recognition.stream(stream.ticket) is None
    assert recognition.stream("") is None


def test_lines_of_pages_that_never_said_good_bye_make_room() -> None:
    recognition = AudioStreams(ScriptedProcess(), installed=True)
    first, *others = [recognition.open(Listening()) for _ in range(501)]
    assert recognition.stream(first.ticket) is None
    assert all(recognition.stream(stream.ticket) is stream for stream in others)
