"""What a screen looks like: its pixels, and where its words and buttons are on it."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image
from playwright.sync_api import Page

from browser.phone import Box, Phone

# Words and buttons that are in sight: a part that is scrolled away is under something else.
_IN_SIGHT = """
() => [...document.querySelectorAll("flt-semantics, flt-semantics h1")].map((node) => {
  const box = node.getBoundingClientRect();
  const words = [...node.childNodes]
    .filter((child) => child.nodeType === 3 || child.tagName === "SPAN")
    .map((child) => child.textContent).join(" ").trim();
  const corners = [
    [box.left + 3, box.top + 3], [box.right - 3, box.top + 3],
    [box.left + 3, box.bottom - 3], [box.right - 3, box.bottom - 3],
  ];
  const seen = corners.every(([x, y]) => {
    const hit = document.elementFromPoint(x, y);
    return hit !== null && (node === hit || node.contains(hit) || hit.contains(node));
  });
  const button = node.getAttribute("role") === "button";
  const scrolled = node.parentElement.closest("[role=group]");
  const cut = scrolled !== null && box.bottom > scrolled.getBoundingClientRect().bottom - 2;
  const { x, y, width, height } = box;
  return { words, button, seen: seen && !cut, x, y, width, height };
}).filter((found) => found.seen && found.words && found.width > 8 && found.height > 8)
"""


@dataclass(frozen=True)
class Piece:
    """A button or a run of words in sight."""

    words: str
    button: bool
    box: Box


@dataclass(frozen=True)
class Look:
    """A screen at rest: `pixels` is height x width x 3, 0 to 255."""

    pixels: np.ndarray
    pieces: tuple[Piece, ...]

    def crop(self, box: Box, inset: float) -> np.ndarray:
        """The pixels of a box without its rim."""
        top, left = round(box.y + inset), round(box.x + inset)
        bottom, right = round(box.y + box.height - inset), round(box.x + box.width - inset)
        return self.pixels[max(0, top) : bottom, max(0, left) : right]


def look_at(phone: Phone) -> Look:
    """The screen once the server has nothing more to say; it may not all be painted yet."""
    phone.at_rest()
    picture = Image.open(io.BytesIO(phone.page.screenshot())).convert("RGB")
    return Look(np.asarray(picture), pieces_in_sight(phone.page))


def pieces_in_sight(page: Page) -> tuple[Piece, ...]:
    """Every button and every run of words that is whole on the screen."""
    pieces = []
    for found in page.evaluate(_IN_SIGHT):
        box = Box(found["x"], found["y"], found["width"], found["height"])
        pieces.append(Piece(found["words"], found["button"], box))
    return tuple(pieces)


def contrast(pixels: np.ndarray) -> float:
    """The contrast of what is written here to its ground, as WCAG 2.2 defines contrast ratio.

    The ground is the commonest colour; the ink is the one farthest from it, since the rims of
    letters are mixed of both.
    """
    packed = pixels.reshape(-1, 3) @ np.array([1 << 16, 1 << 8, 1])
    _, first, counts = np.unique(packed, return_index=True, return_counts=True)
    light = _luminance(pixels.reshape(-1, 3)[first])
    ground = light[np.argmax(counts)]
    ratios = (np.maximum(light, ground) + 0.05) / (np.minimum(light, ground) + 0.05)
    return float(ratios.max())


def _luminance(colours: np.ndarray) -> np.ndarray:
    """Relative luminance of sRGB colours: WCAG 2.2, definition of the same name."""
    share = colours / 255.0
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return np.asarray(linear @ np.array([0.2126, 0.7152, 0.0722]))


def even(pixels: np.ndarray, tolerance: int = 40) -> bool:
    """Whether nothing is drawn here: all of one colour, but for a little shading."""
    flat = pixels.reshape(-1, 3).astype(int)
    return flat.size == 0 or int((flat.max(axis=0) - flat.min(axis=0)).max()) <= tolerance
