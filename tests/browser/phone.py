"""One page of the app as a mechanic's phone shows it: what it says, and taps on it.

The page draws on a canvas; what can be read and tapped by name is its tree of semantics, which
the app builds once asked for. The tree is built anew with every change, so nothing found in it
is kept: each look asks again, and each wait is for the state that is to come.
"""

from __future__ import annotations

import re
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Locator, Page, Request, Response, WebSocket, expect
from playwright.sync_api import TimeoutError as TookTooLong

from walkaround.timing import Timing

PATIENCE_MS = 40_000.0
"""How long something may take on a busy machine before it counts as not happening."""
RIGHT = re.compile("^(OK|Done|All good|Both OK|Gauges at zero|Chocks (stay in|left in, tagged))$")
"""The first answer of a step: it is OK, it is done, or nothing is taken away."""
READ_ON = re.compile("^(Read on|Seguir leyendo)$")
"""Stands where the answers will, as long as words that must be read are not whole on the screen."""
MOST_SCROLLED = 6
MOST_UNHEARD = 3
"""So many taps on one phone may go unheard."""
SCREEN_BYTES = 1000
"""What the server sends is a new screen, or another step on it, if it is no shorter than this."""
SIZES: Mapping[str, tuple[int, int]] = {
    "phone": (412, 915),
    "small phone": (360, 640),
    "tablet": (820, 1180),
    "desktop": (1280, 800),
}
TWICE_S = 0.4
"""A touch that follows another one on its place sooner is its second half: assets/index.html."""
SOUND = re.compile("/speech/")
"""The address of a sound. A step's is fetched right after the step is drawn."""
_CLICK = b"\xa5click"
"""What the page tells the server of a tap; it also tells of sounds that end, unasked."""
_SECONDS = re.compile(r"(\d+) seconds (?:left|to the next reading)")
_ELSEWHERE = re.compile(r"^(https?|wss?)://(?!127\.0\.0\.\d[:/])")
# The placeholder may be put in anew while the page starts, so finding and asking are one step.
_ASK_FOR_SEMANTICS = """() => {
  document.querySelector("flt-semantics-placeholder")?.click();
  return document.querySelector("flt-semantics") !== null;
}"""
_NAMED = """localStorage.getItem("flutter.walkaround.name")
  ?? localStorage.setItem("flutter.walkaround.name", '"Ana"');"""
"""The phone knows whose it is, so that no walk asks."""
_LISTEN = """
window.heard = [];
const play = HTMLMediaElement.prototype.play;
HTMLMediaElement.prototype.play = function () {
  const note = (what) => window.heard.push({ src: this.src, what, at_ms: performance.now() });
  for (const what of ["playing", "ended"]) {
    this.addEventListener(what, () => note(what), { once: true });
  }
  note("asked");
  return play.call(this);
};
"""
FRAME_MS = 66
"""A page draws no oftener. While a sound plays Flet draws all the time, which without a graphics
card costs all of a core; a single change is drawn at once all the same."""
COARSE = 0.25
"""Pixels of the screen for each logical one, across and down: without a graphics card filling them
costs a third of a step. What looks at pixels has them all."""
_DRAW_SELDOM = f"""(() => {{
  const draw = window.requestAnimationFrame.bind(window);
  let last_ms = -Infinity;
  window.toDraw = 0;
  window.requestAnimationFrame = (call) => {{
    window.toDraw += 1;
    const drawn = (at_ms) => {{
      last_ms = performance.now();
      call(at_ms);
      window.toDraw -= 1;
    }};
    const wait_ms = last_ms + {FRAME_MS} - performance.now();
    return wait_ms > 0 ? setTimeout(() => draw(drawn), wait_ms) : draw(drawn);
  }};
}})();"""


@dataclass(frozen=True)
class Box:
    """Where something is on the screen, in logical pixels."""

    x: float
    y: float
    width: float
    height: float

    @property
    def middle(self) -> tuple[float, float]:
        return self.x + self.width / 2, self.y + self.height / 2

    def inside(self, width: float, height: float) -> bool:
        """Whether all of it is on a screen of this size."""
        across = self.x >= 0 and self.x + self.width <= width + 0.5
        return across and self.y >= 0 and self.y + self.height <= height + 0.5


class Phone:
    """A page of the app. Requests to anywhere but this machine fail and are remembered."""

    def __init__(
        self, page: Page, dead_s: float = Timing().dead_s, *, smooth: bool = False
    ) -> None:
        """For an app that waits `dead_s` after a step; `smooth` draws as often as it can."""
        self.page = page
        self.dead_s = dead_s
        self.address = ""
        self.responses: list[Response] = []
        self.refused: list[Request] = []
        self._frames = 0
        self._screens = 0
        self._screen_s = 0.0
        self._touched_s = 0.0
        self._clicks = 0
        self._unheard = 0
        page.set_default_timeout(PATIENCE_MS)
        page.on("response", self._note)
        page.on("websocket", self._follow)
        page.on("requestfailed", self._refuse)
        page.add_init_script(_NAMED)
        page.add_init_script(_LISTEN if smooth else _LISTEN + _DRAW_SELDOM)

    def _follow(self, socket: WebSocket) -> None:
        socket.on("framereceived", self._received)
        socket.on("framesent", self._told)

    def _told(self, frame: str | bytes) -> None:
        self._clicks += isinstance(frame, bytes) and _CLICK in frame

    def _received(self, frame: str | bytes) -> None:
        self._frames += 1
        if len(frame) >= SCREEN_BYTES:
            self._screens += 1
            self._screen_s = time.monotonic()

    def _note(self, response: Response) -> None:
        self.responses.append(response)

    def _refuse(self, request: Request) -> None:
        if _ELSEWHERE.match(request.url):
            self.refused.append(request)

    def open(self, address: str, path: str = "") -> None:
        """Go to a page of the app and wait until it can be read."""
        self.address = address
        self.page.goto(address + path)
        self.wake()

    def reload(self) -> None:
        """Load the page again, as a pull on the screen does."""
        self.page.reload()
        self.wake()

    def wake(self) -> None:
        """Ask for semantics and wait for the first button."""
        self.page.wait_for_function(_ASK_FOR_SEMANTICS)
        self.page.get_by_role("button").first.wait_for()

    @property
    def frames(self) -> int:
        """How often the server has said something to it."""
        return self._frames

    @property
    def path(self) -> str:
        """The page's address inside the app."""
        return urlsplit(self.page.url).path

    @property
    def walk_id(self) -> str:
        """The walk or record that the address names."""
        return self.path.rpartition("/")[2]

    def button(self, name: str | re.Pattern[str]) -> Locator:
        """The button of that name."""
        return self.page.get_by_role("button", name=name, exact=isinstance(name, str)).first

    def card(self, words: str) -> Locator:
        """The first card (a button with several lines) that holds these words."""
        return self.page.get_by_role("button", name=words).first

    def tap(self, name: str | re.Pattern[str]) -> None:
        """Tap a button once it is there."""
        self.press(self.button(name))

    def press(self, found: Locator) -> None:
        """Tap this, as a hand does that has seen the screen first.

        What comes sooner after a screen counts as the second half of a double tap. A tap that
        falls between two drawings of the page tells the server nothing, and is tried again; that
        is rare.
        """
        found.wait_for(state="attached")
        while self._unheard < MOST_UNHEARD:
            while (wait_s := self._too_soon_s()) > 0:
                self.page.wait_for_timeout(1000 * wait_s)
            before = self._clicks
            found.tap()
            self._touched_s = time.monotonic()
            for _ in range(100):
                if self._clicks > before:
                    return
                self.page.wait_for_timeout(20)
            self._unheard += 1
        raise AssertionError(f"Taps, the last one on {found}, told the server nothing.")

    def _too_soon_s(self) -> float:
        """So long a tap would still be taken for the second half of a double one."""
        ready_s = max(self._screen_s + self.dead_s, self._touched_s + TWICE_S) + 0.05
        return ready_s - time.monotonic()

    def answer(self, name: str | re.Pattern[str] = RIGHT) -> None:
        """Look at the step on the screen, then answer it.

        A step may come as a small change of the last, so this always waits.
        """
        self.stays(name)
        self.page.wait_for_timeout(1000 * max(self.dead_s, 0.1) + 50)
        self._scroll_to(name)
        self.tap(name)

    def read_on(self, name: str | re.Pattern[str], moment_ms: float = 300) -> None:
        """Read what a step asks to its end, until this button is there."""
        self.stays(name)
        self.at_rest(moment_ms)
        self._scroll_to(name)

    def _scroll_to(self, name: str | re.Pattern[str]) -> None:
        for _ in range(MOST_SCROLLED):
            # Between two drawings neither may be there.
            self.stays(name)
            if self.button(name).count():
                break
            # It may go by itself, once the words have been seen.
            with suppress(TookTooLong):
                self.button(READ_ON).wait_for(state="attached", timeout=2000)
                self.press(self.button(READ_ON))
            self.at_rest()

    def types(self, label: str, text: str, after: str = "") -> None:
        """Go into the field of this label, which holds `after`, and type this behind it.

        A field shows its words once the app knows that it is being typed in; keys that come
        sooner, sooner than a hand could, are lost. An empty one does not show when that is, so
        what was lost is typed again.
        """
        field = self.page.get_by_label(label).first
        field.click()
        self.reads(label, after)
        self.page.keyboard.press("End")
        self.page.keyboard.type(text)
        for _ in range(3):
            try:
                expect(field).to_have_value(after + text, timeout=5000)
                return
            except AssertionError:
                self.page.keyboard.press("Control+A")
                self.page.keyboard.type(after + text)
        self.reads(label, after + text)

    def reads(self, label: str, text: str) -> None:
        """Wait until the field of this label, being typed in, holds these words."""
        field = self.page.get_by_label(label).first
        expect(field).to_have_value(text, timeout=PATIENCE_MS)

    def box(self, name: str | re.Pattern[str]) -> Box:
        """Where a button is; between two drawings of the page it is nowhere for a moment."""
        for _ in range(40):
            if found := self.button(name).bounding_box():
                return Box(**found)
            self.page.wait_for_timeout(50)
        raise AssertionError(f"The button {name} is not on the screen.")

    def sees(self, words: str | re.Pattern[str]) -> None:
        """Wait until these words are in the page."""
        expect(self.page.get_by_text(words).first).to_be_attached(timeout=PATIENCE_MS)

    def no_longer(self, words: str) -> None:
        """Wait until these words are gone from the page."""
        expect(self.page.get_by_text(words)).to_have_count(0, timeout=PATIENCE_MS)

    def at(self, place: int, title: str = "") -> None:
        """Wait for the step of this number."""
        expect(self.page.get_by_text(re.compile(rf"^(step )?{place} of \d+$"))).to_be_attached(
            timeout=PATIENCE_MS
        )
        if title:
            self.headed(title)

    def headed(self, title: str) -> None:
        """Wait for a screen with this heading."""
        heading = self.page.get_by_role("heading", name=title, exact=True)
        expect(heading).to_be_attached(timeout=PATIENCE_MS)

    def gone(self, name: str | re.Pattern[str]) -> None:
        """Wait until a button is gone."""
        expect(self.button(name)).to_have_count(0, timeout=PATIENCE_MS)

    def stays(self, name: str | re.Pattern[str]) -> None:
        """Wait for a button, or for what stands in its place until the words have been read."""
        either = self.button(name).or_(self.button(READ_ON)).first
        expect(either).to_be_attached(timeout=PATIENCE_MS)

    def seconds_left(self) -> int:
        """What the running air hold says; a page has that as a text, or as the name of one."""
        shown = self._saying(_SECONDS).first
        said = shown.get_attribute("aria-label") or shown.text_content() or ""
        found = _SECONDS.search(said)
        assert found is not None
        return int(found[1])

    def counts_on(self, seconds: int) -> None:
        """Wait until the running air hold says something other than so many seconds."""
        stuck = re.compile(rf"\b{seconds} seconds (left|to the next reading)")
        expect(self._saying(stuck)).to_have_count(0, timeout=PATIENCE_MS)

    def _saying(self, words: re.Pattern[str]) -> Locator:
        return self.page.get_by_text(words).or_(self.page.get_by_label(words))

    def text(self) -> str:
        """Everything that a screen reader would find on the page now."""
        return self.page.locator("body").aria_snapshot()

    def heard(self, digest: str) -> None:
        """Wait until this sound is playing in the page."""
        self.page.wait_for_function(
            "digest => window.heard.some(h => h.what === 'playing' && h.src.includes(digest))",
            arg=digest,
        )

    def sounds(self) -> list[Mapping[str, float | str]]:
        """Every sound of the app's so far: `src`, `what` became of it, `at_ms` in the page."""
        found: list[Mapping[str, float | str]] = self.page.evaluate("window.heard")
        return [sound for sound in found if SOUND.search(str(sound["src"]))]

    @contextmanager
    def new_screen(self) -> Iterator[None]:
        """Wait, after what is done inside, until the server has sent another screen."""
        before = self._screens
        yield
        deadline = time.monotonic() + PATIENCE_MS / 1000
        while self._screens == before:
            assert time.monotonic() < deadline, "The server sent no new screen."
            self.page.wait_for_timeout(50)

    def at_rest(self, moment_ms: float = 120) -> None:
        """Wait until the server has had nothing to say for a moment."""
        before = -1
        while before != self._frames:
            before = self._frames
            self.page.wait_for_timeout(moment_ms)

    def settled(self) -> None:
        """Wait until everything tapped before has been answered.

        A page's taps are handled in order, so once a tap on "Note" shows, they all were. One
        that falls between the two drawings of a page that has just come back is lost, so it is
        tried again if need be.
        """
        note = self.button("Save the note")
        for _ in range(5):
            self.button("Note").tap()
            try:
                note.wait_for(timeout=2000)
            except TookTooLong:
                continue
            break
        self.tap("Back")
        self.gone("Save the note")


@contextmanager
def in_hand(
    browser: Browser,
    size: str = "phone",
    *,
    dead_s: float = Timing().dead_s,
    smooth: bool = False,
    sharp: bool = False,
    kind: type[Phone] = Phone,
) -> Iterator[Phone]:
    """A phone of this size, in a browser profile of its own; the rest as `Phone` has it.

    `sharp` draws every pixel, as does a smooth one.
    """
    width, height = SIZES[size]
    context = browser.new_context(
        viewport={"width": width, "height": height},
        device_scale_factor=1.0 if sharp or smooth else COARSE,
        has_touch=True,
        accept_downloads=True,
    )
    try:
        yield kind(context.new_page(), dead_s, smooth=smooth)
    finally:
        context.close()
