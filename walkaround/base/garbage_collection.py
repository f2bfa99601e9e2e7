"""Doing without Python's search for circles of objects while very many are made."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_search_for_circles() -> Iterator[None]:
    """Search for none in the block: for what throws away no circles, and would spend a third of its
    time on looking for them."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()
