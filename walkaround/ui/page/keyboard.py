"""The keys that one phone has learned, what the next press means, and what keys step through.

The script in `assets/index.html` reads what is kept here: a learned key that presses buttons on a
page too, such as Enter, reaches the app under another name and presses none.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping, Sequence
from typing import NamedTuple

from walkaround.key_answers.learned_keys import Action, LearnedKeys

KEYS_KEY = "walkaround.keys"
"""The name of what keeps the keys that it has learned; the script in the page reads it."""
STAND_INS: Mapping[str, str] = {"F22": "Numpad Enter", "F23": "Space", "F24": "Enter"}
"""What the script in the page makes of learned keys that would press the focused button too."""


class Offer(NamedTuple):
    """One of the things that can be told with two keys: one goes on to the next, one takes it.

    Attributes:
        word: as it is said.
        key: of its button.
        take: what a tap on that does.
    """

    word: str
    key: str
    take: Callable[[], Awaitable[None]]


class Offers(NamedTuple):
    """The choices on a panel, and which of them is pointed at; -1 where nothing is yet."""

    all: Sequence[Offer]
    at: int
    point: Callable[[int], None]
    close: Callable[[], Awaitable[None]]


class Keyboard:
    """The keys of one phone: anything that acts as a keyboard.

    Attributes:
        learnt: the keys that it has learned.
        learning: what the next press is learned for; None where nobody asked for that.
        offers: what keys go through on the panel that is open; None if nothing was drawn yet.
    """

    def __init__(
        self,
        read_text: Callable[[str], Awaitable[str]],
        keep: Callable[[str, str], Awaitable[bool]],
    ) -> None:
        """Take what the phone has kept under a name, and what keeps a text under one."""
        self._kept, self._keep = read_text, keep
        self.learnt = LearnedKeys()
        self.learning: Action | None = None
        self.offers: Offers | None = None

    async def know(self) -> bool:
        """Ask the phone for its keys; return whether it has any."""
        self.learnt = LearnedKeys.from_json(await self._kept(KEYS_KEY))
        return bool(self.learnt.keys)

    async def learn(self, key: str) -> bool:
        """Let this key mean what was asked for; return whether it can be learned."""
        assert self.learning is not None
        after = self.learnt.learn(key, self.learning)
        if after.action(key) != self.learning:
            return False
        self.learning = None
        await self.change(after)
        return True

    async def change(self, learnt: LearnedKeys) -> None:
        """Store these keys on the phone, also when the page is closed."""
        self.learnt = learnt
        await self._keep(KEYS_KEY, learnt.model_dump_json())
