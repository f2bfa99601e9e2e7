"""The keys that one phone has learnt: each was pressed once, and means one thing from then on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, get_args

from pydantic import BaseModel, ConfigDict, Field, ValidationError

Action = Literal["ok", "defect", "again", "explain", "back", "talk"]
"""What a key can be learnt for: `ok` is the first answer of a step, `talk` is held to talk."""
ACTIONS: tuple[Action, ...] = get_args(Action)
MOST_KEYS = 20
"""More than a keypad of numbers and a pedal have together."""
NOT_LEARNT = frozenset({"Tab"})
"""What goes from one control to the next, for those who use no screen."""

_Key = Annotated[str, Field(min_length=1, max_length=40)]


class LearntKeys(BaseModel):
    """What each key means, by the name that the page has for it, such as `Page Down`."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    keys: Mapping[_Key, Action] = Field(default_factory=dict, max_length=MOST_KEYS)

    @classmethod
    def kept(cls, text: str) -> LearntKeys:
        """Read what a phone has kept; none where that cannot be read."""
        try:
            return cls.model_validate_json(text)
        except ValidationError:
            return cls()

    def action(self, key: str) -> Action | None:
        """Tell what this key means; None if it was never learnt."""
        return self.keys.get(key_name(key))

    def of(self, action: Action) -> tuple[str, ...]:
        """List the keys that mean this, in the order in which they were learnt."""
        return tuple(key for key, means in self.keys.items() if means == action)

    def learn(self, key: str, action: Action) -> LearntKeys:
        """Let this key mean this and nothing else; of too many the one learnt first is forgotten.

        What cannot be learnt changes nothing.
        """
        name = key_name(key)
        if not name or len(name) > 40 or name in NOT_LEARNT:
            return self
        others = {other: means for other, means in self.keys.items() if other != name}
        kept = list(others.items())[-(MOST_KEYS - 1) :]
        return LearntKeys(keys={**dict(kept), name: action})


def key_name(key: str) -> str:
    """Name a key as it is kept and shown; a page calls the space bar by a space."""
    return key.strip() or ("Space" if key else "")
