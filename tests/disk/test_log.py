"""The log: what goes where, what never does, and what happens when it cannot be written."""

from __future__ import annotations

import logging
import re
import threading
import warnings
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.disk import locations
from walkaround.disk import log as logfile
from walkaround.disk.log import NAME, OLDER_FILES, redacted, start_log

OURS = logging.getLogger("walkaround.records.open_walks")
THEIRS = logging.getLogger("some.library")
LINE = re.compile(r"(\S+Z) (INFO|WARNING|ERROR) ([\w.]+): (.*)")


@pytest.fixture(autouse=True)
def _log_as_before(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The log is one for the process: after each test it is what it was."""
    root, names = logging.getLogger(), ("walkaround", "flet", "flet_web", "uvicorn")
    handlers, levels = list(root.handlers), [logging.getLogger(n).level for n in ("", *names)]
    monkeypatch.setattr(logging, "raiseExceptions", logging.raiseExceptions)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    yield
    logging.captureWarnings(False)
    for handler in set(root.handlers) - set(handlers):
        root.removeHandler(handler)
        handler.close()
    for name, level in zip(("", *names), levels, strict=True):
        logging.getLogger(name).setLevel(level)


def lines(data: Path) -> list[str]:
    return (locations.log_folder(data) / NAME).read_text(encoding="utf-8").splitlines()


def test_a_line_tells_when_in_utc_how_bad_who_and_what(tmp_path: Path) -> None:
    start_log(tmp_path, verbose=False)
    OURS.info("Walk %s begins", "20261125_081502_4f3a9c")
    first, second = (LINE.fullmatch(line) for line in lines(tmp_path))
    assert first is not None
    assert second is not None
    assert "starts" in first[4]
    assert str(tmp_path) in first[4]
    assert second.groups()[1:] == (
        "INFO",
        "walkaround.records.open_walks",
        "Walk 20261125_081502_4f3a9c begins",
    )
    assert abs(datetime.now(UTC) - datetime.fromisoformat(second[1])) < timedelta(minutes=5)


def test_of_libraries_it_holds_what_is_wrong_of_itself_all(tmp_path: Path) -> None:
    start_log(tmp_path, verbose=True)
    for logger in (OURS, THEIRS, logging.getLogger("flet_web"), logging.getLogger("flet")):
        logger.info("told")
        logger.warning("wrong")
    found = [LINE.fullmatch(line) for line in lines(tmp_path)[1:]]
    assert [(line[3], line[4]) for line in found if line] == [
        ("walkaround.records.open_walks", "told"),
        ("walkaround.records.open_walks", "wrong"),
        ("some.library", "wrong"),
        ("flet_web", "wrong"),
        ("flet", "wrong"),
    ]


@pytest.mark.parametrize("verbose", [True, False])
def test_standard_error_has_what_is_wrong_and_all_if_wished(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], verbose: bool
) -> None:
    before = logging.StreamHandler()  # as the command line makes one
    logging.getLogger().addHandler(before)
    start_log(tmp_path, verbose=verbose)
    OURS.info("told")
    OURS.warning("wrong")
    said = capsys.readouterr().err
    assert said.count("wrong") == 1
    assert said.count("told") == verbose


def test_what_python_warns_of_and_what_ends_a_thread_are_there(tmp_path: Path) -> None:
    start_log(tmp_path, verbose=False)
    with warnings.catch_warnings():
        warnings.simplefilter("always")
        logging.captureWarnings(True)
        warnings.warn("getting old", DeprecationWarning, stacklevel=1)
    thread = threading.Thread(target=lambda: 1 / 0, name="speech")
    thread.start()
    thread.join()
    text = "\n".join(lines(tmp_path))
    assert "getting old" in text
    assert "Thread speech failed" in text
    assert "ZeroDivisionError" in text


def test_it_is_turned_over_when_it_grows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(logfile, "MOST_LOG_BYTES", 2000)
    start_log(tmp_path, verbose=False)
    for number in range(300):
        OURS.info("number %d", number)
    files = sorted(locations.log_folder(tmp_path).iterdir())
    assert len(files) == OLDER_FILES + 1
    assert all(file.stat().st_size <= 2000 for file in files)
    assert "number 299" in lines(tmp_path)[-1]


# Nothing that breaks the log breaks anything else


def _blocked(folder: Path) -> None:
    folder.touch()


def _full(folder: Path) -> None:
    folder.mkdir()
    (folder / NAME).symlink_to("/dev/full")


@pytest.mark.parametrize(
    ("block", "why"), [(_blocked, "File exists"), (_full, "No space left on device")]
)
def test_a_log_that_cannot_be_written_is_told_once_and_tried_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], block: object, why: str
) -> None:
    if block is _full and not Path("/dev/full").exists():
        pytest.skip("no /dev/full")
    folder = locations.log_folder(tmp_path)
    assert callable(block)
    block(folder)
    start_log(tmp_path, verbose=False)
    for _ in range(5):
        OURS.info("lost")
    told = capsys.readouterr().err
    assert told == (
        f"walkaround: The log in {folder} cannot be written ({why}); "
        "walkaround goes on without it.\n"
    )
    (folder / NAME if folder.is_dir() else folder).unlink()
    OURS.info("written again")
    assert [line[-13:] for line in lines(tmp_path)] == ["written again"]
    assert capsys.readouterr().err == ""


def test_a_message_that_does_not_fit_its_own_words_harms_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    start_log(tmp_path, verbose=False)
    OURS.info("%d of %d", "one")
    (file,) = (each for each in logging.getLogger().handlers if isinstance(each, logfile._LogFile))
    # Not to the log of the test run, which cannot be passed on with half a character in it.
    file.handle(OURS.makeRecord(OURS.name, logging.INFO, "", 0, "lone \ud800 surrogate", (), None))
    assert "surrogate" in lines(tmp_path)[-1]
    assert capsys.readouterr().err == ""


# What it never holds

secrets = st.text(st.characters(categories=["Ll", "Lu", "Nd"], max_codepoint=127), min_size=8)


@given(secret=st.builds("{}-_Zz9".format, secrets))
def test_no_key_and_no_cookie_survives(secret: str) -> None:
    for text in (
        f"GET /?key={secret} HTTP/1.1",
        f"http://192.0.2.7:8765/?a=1&key={secret}&b=2",
        f"http%3A//x/?key%3D{secret}",
        f"cookie: other=1; walkaround_pairing={secret}; more=2",
        f"(b'cookie', b'walkaround_pairing={secret}')",
        f"query_string=b'key={secret}'",
        f'KEY="{secret}"',
    ):
        assert secret not in redacted(text)
        assert "***" in redacted(text)
    assert "more=2" in redacted(f"walkaround_pairing={secret}; more=2")


def test_an_exceptions_own_words_are_blanked_too(tmp_path: Path) -> None:
    start_log(tmp_path, verbose=False)
    try:
        raise ValueError("bad address http://192.0.2.7/?key=abcDEF123")
    except ValueError:
        OURS.exception("walkaround_pairing=%s", "0123456789abcdef")
    text = "\n".join(lines(tmp_path))
    assert "ValueError: bad address http://192.0.2.7/?key=***" in text
    assert "0123456789abcdef" not in text


@pytest.mark.parametrize("hidden", ["\n2026-01-01 forged", "\x1b[2J", "\u202e", "\r", "\u2028x"])
def test_a_name_cannot_forge_a_line_or_hide_in_one(tmp_path: Path, hidden: str) -> None:
    start_log(tmp_path, verbose=False)
    OURS.warning("vehicle %s", hidden)
    assert len(lines(tmp_path)) == 2
    assert not re.search(r"[\x00-\x1f\u2028\u202e]", lines(tmp_path)[1])


def test_what_an_exception_says_cannot_forge_a_line_or_drive_a_terminal(tmp_path: Path) -> None:
    start_log(tmp_path, verbose=False)
    try:
        raise ValueError("bad\x1b[2J\n2026-01-01T00:00:00.000Z INFO walkaround: all is well")
    except ValueError:
        OURS.exception("it failed")
    text = lines(tmp_path)
    assert "\x1b" not in "\n".join(text)
    assert not [line for line in text if line.startswith("2026-01-01")]
