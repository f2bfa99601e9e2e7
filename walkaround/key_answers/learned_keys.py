"""The keys that one phone has learned: each was pressed once, and has one meaning from then on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, get_args

from pydantic import BaseModel, ConfigDict, Field, ValidationError

Action = Literal["ok", "defect", "again", "explain", "back", "talk"]
"""What a key can be learned for: `ok` is the first answer of a step, `talk` is held to talk."""
ACTIONS: tuple[Action, ...] = get_args(Action)
MOST_KEYS = 20
"""More than a numeric keypad and a pedal have together."""
NOT_LEARNABLE = frozenset({"Tab"})
"""Keys that move the focus from one control to the next, for people who use no touch screen."""

_Key = Annotated[str, Field(min_length=1, max_length=40)]


class LearnedKeys(BaseModel):
    """The meaning of each key, by the name that the page has for it, such as `Page Down`."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    keys: Mapping[_Key, Action] = Field(default_factory=dict, max_length=MOST_KEYS)

    @classmethod
    def from_json(cls, text: str) -> LearnedKeys:
        """Parse what a phone has stored; return no keys if that is not valid."""
        try:
            return cls.model_validate_json(text)
        except ValidationError:
            return cls()

    def action(self, key: str) -> Action | None:
        """Return what this key means; None if it was never learned."""
        return self.keys.get(key_name(key))

    def keys_for(self, action: Action) -> tuple[str, ...]:
        """List the keys with this meaning, in the order in which they were learned."""
        return tuple(key for key, meaning in self.keys.items() if meaning == action)

    def learn(self, key: str, action: Action) -> LearnedKeys:
        """Return the keys with this meaning for this key; beyond MOST_KEYS the oldest is dropped.

        A key that cannot be learned changes nothing.
        """
        name = key_name(key)
        if not name or len(name) > 40 or name in NOT_LEARNABLE:
            return self
        others = {other: meaning for other, meaning in self.keys.items() if other != name}
        newest = list(others.items())[-(MOST_KEYS - 1) :]
        return LearnedKeys(keys={**dict(newest), name: action})


def key_name(key: str) -> str:
    """Return the name of a key as it is stored and shown; a page names the space bar by a space."""
    return key.strip() or ("Space" if key else "")
