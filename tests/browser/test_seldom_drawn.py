"""While a sound plays, the page draws only as often as somebody could want."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from browser.phone import in_hand
from browser.serving import Served

pytestmark = pytest.mark.browser

WATCHED_S = 1.0
SELDOM_MS = 100.0
"""Between two frames, if nothing is touched: assets/index.html."""
OFTEN_MS = 60.0
"""Two of the frames that come as often as the page can draw are closer, on a busy machine too."""
_LEAST_GAPS_WHILE_IT_HISSES = """
async (watched_ms) => {
  const wait = (ms) => new Promise((over) => setTimeout(over, ms));
  const least_gap_ms = async () => {
    let least = Infinity, drawn_at = -Infinity, watching = true;
    const next = () => {
      least = Math.min(least, performance.now() - drawn_at);
      drawn_at = performance.now();
      if (watching) requestAnimationFrame(next);
    };
    requestAnimationFrame(next);
    await wait(watched_ms);
    watching = false;
    return least;
  };
  const silent = await least_gap_ms();
  const sound = new Audio("/sounds/hiss.wav");
  sound.loop = true;
  await sound.play();
  await wait(700);
  const untouched = await least_gap_ms();
  for (const [kind, clientX] of [["pointerdown", 10], ["pointermove", 40], ["pointerup", 40]]) {
    document.body.dispatchEvent(new PointerEvent(kind, { bubbles: true, clientX }));
  }
  const dragged = await least_gap_ms();
  sound.pause();
  return { silent, untouched, dragged };
}
"""


def test_while_a_sound_plays_frames_come_seldom_until_something_is_dragged(
    app: Served, chromium: Browser
) -> None:
    with in_hand(chromium, smooth=True) as phone:
        phone.open(app.address)
        gaps_ms = phone.page.evaluate(_LEAST_GAPS_WHILE_IT_HISSES, 1000 * WATCHED_S)
    assert max(gaps_ms["silent"], gaps_ms["dragged"]) < OFTEN_MS, gaps_ms
    assert gaps_ms["untouched"] > 0.9 * SELDOM_MS, gaps_ms
