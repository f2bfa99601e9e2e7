"""What the browser tests share: one Chromium, a phone, the app on a clock of the test's."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import nullcontext
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from support.sockets import _sockets_of_ended_servers as _sockets_of_ended_servers
from support.voices import BriefVoice
from support.walks import FakeClock

from browser.chromium import COMPILED_ONCE, launched
from browser.cutting import Link, linked
from browser.kept import Kept, keeping
from browser.onewalk import OneWalk, seeded
from browser.phone import Phone, in_hand
from browser.serving import Command, Served, served
from walkaround.timing import Timing
from walkaround.voice.clips import Voice

_HERE = Path(__file__).parent
_FAILED = pytest.StashKey[bool]()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Have what fails in a browser tried once more; the summary lists it as rerun.

    On a machine under load a page may take no key or touch for a moment, once in a thousand tests.
    """
    for item in items:
        if item.path.is_relative_to(_HERE):
            item.add_marker(pytest.mark.flaky(reruns=1))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Iterator[None]:
    report = yield
    item.stash[_FAILED] = item.stash.get(_FAILED, False) or report.failed
    return report


@pytest.fixture(scope="package")
def chromium(pytestconfig: pytest.Config) -> Iterator[Browser]:
    # Not for the whole session: Playwright keeps an event loop running in this thread, beside
    # which no asynchronous test of another folder could run.
    # In a long run pages live long enough to be compiled well.
    with launched(*() if pytestconfig.option.markexpr == "soak" else (COMPILED_ONCE,)) as browser:
        yield browser


@pytest.fixture
def voice(tmp_path: Path) -> Voice:
    """Brief sounds; what is about speech itself has a voice of its own."""
    return BriefVoice(tmp_path / "speech")


@pytest.fixture
def timing() -> Timing:
    """Steps take an answer at once; what is about double taps waits as for people."""
    return Timing(dead_s=0.0)


@pytest.fixture
def clock(request: pytest.FixtureRequest) -> FakeClock:
    kept = _kept(request)
    return kept.clock if kept else FakeClock()


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """The data folder of the test's app."""
    return tmp_path / "data"


@pytest.fixture(scope="module")
def one_page(
    chromium: Browser, request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Kept]:
    """One app and one page for all tests of a file, each of which has a walk of its own.

    A file asks for it by the mark `usefixtures`: a page that is opened costs as much as a dozen
    screens on it.
    """
    with keeping(chromium, tmp_path_factory.mktemp("kept"), sharp=_sharp(request)) as made:
        yield made


def _sharp(request: pytest.FixtureRequest) -> bool:
    """Whether the test, or its file, looks at pixels."""
    return request.node.get_closest_marker("sharp") is not None


def _kept(request: pytest.FixtureRequest) -> Kept | None:
    return request.getfixturevalue("one_page") if "one_page" in request.fixturenames else None


@pytest.fixture
def app(
    request: pytest.FixtureRequest, data: Path, clock: FakeClock, voice: Voice, timing: Timing
) -> Iterator[Served]:
    """The app in this process; the test moves its clock."""
    if kept := _kept(request):
        yield kept.app
        return
    with served(data, clock, voice, timing=timing) as running:
        yield running


@pytest.fixture
def walk(app: Served, data: Path) -> OneWalk:
    """A walk of that app's that waits at one of its steps."""
    return seeded(app.parts, data)


@pytest.fixture
def link(app: Served) -> Iterator[Link]:
    """The way to that app, which the test may cut."""
    with linked(app.address) as made:
        yield made


@pytest.fixture
def command(data: Path) -> Iterator[Command]:
    """The real command, not yet started."""
    process = Command(data)
    yield process
    process.stop()


@pytest.fixture
def phone(chromium: Browser, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Phone]:
    """A phone; name it after the app, so that it is put away first."""
    app: Served | None = request.getfixturevalue("app") if "app" in request.fixturenames else None
    timing, kept = app.parts.timing if app else Timing(), _kept(request)
    own = in_hand(chromium, dead_s=timing.dead_s, sharp=_sharp(request))
    with nullcontext(kept.phone()) if kept else own as held:
        yield held
        if request.node.stash.get(_FAILED, False):
            held.page.screenshot(path=tmp_path / "failed.png")
            if kept:
                kept.put_away()
