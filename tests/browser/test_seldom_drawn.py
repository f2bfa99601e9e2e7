"""While a sound plays, the page draws only as often as somebody could want."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from browser.phone import in_hand
from browser.serving import Served

pytestmark = pytest.mark.browser

COUNTED_S = 0.5
SELDOM_S = 0.1
"""Between two frames, if nothing is touched: assets/index.html."""
_FRAMES_WHILE_IT_HISSES = """
async (counted_ms) => {
  const wait = (ms) => new Promise((over) => setTimeout(over, ms));
  const frames = async () => {
    let count = 0, counting = true;
    const next = () => {
      count += 1;
      if (counting) requestAnimationFrame(next);
    };
    requestAnimationFrame(next);
    await wait(counted_ms);
    counting = false;
    return count;
  };
  const silent = await frames();
  const sound = new Audio("/sounds/hiss.wav");
  sound.loop = true;
  await sound.play();
  await wait(700);
  const untouched = await frames();
  for (const [kind, clientX] of [["pointerdown", 10], ["pointermove", 40], ["pointerup", 40]]) {
    document.body.dispatchEvent(new PointerEvent(kind, { bubbles: true, clientX }));
  }
  const dragged = await frames();
  sound.pause();
  return { silent, untouched, dragged };
}
"""


def test_while_a_sound_plays_frames_come_seldom_until_something_is_dragged(
    app: Served, chromium: Browser
) -> None:
    with in_hand(chromium, smooth=True) as phone:
        phone.open(app.address)
        frames = phone.page.evaluate(_FRAMES_WHILE_IT_HISSES, 1000 * COUNTED_S)
    most = COUNTED_S / SELDOM_S + 1
    assert frames["untouched"] <= most < min(frames["silent"], frames["dragged"]), frames
