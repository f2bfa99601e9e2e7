"""How the app talks and looks: what the mechanic may set, and its bounds."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

RATES_WPM = (120, 140, 160, 180, 200, 220)
"""Speaking rates on offer, words per minute, slow to fast."""
VOLUMES = (0.25, 0.5, 0.75, 1.0)
"""Loudness on offer, as a share of the phone's own volume."""


class Settings(BaseModel):
    """One data folder's settings.

    Attributes:
        wording: short prompts, or long ones for the new hire.
        voice: whether prompts are spoken.
        rate_wpm: speaking rate, one of `RATES_WPM`.
        volume: one of `VOLUMES`.
        dark: dark colours, light ones, or as the phone says (None).
        who: the name that the next walk's answers are signed with.
        names: names used before, the latest first.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    wording: Literal["short", "long"] = "short"
    voice: bool = True
    rate_wpm: int = Field(default=160, ge=80, le=300)
    volume: float = Field(default=1.0, ge=0, le=1)
    dark: bool | None = None
    who: str = Field(default="", max_length=40)
    names: tuple[str, ...] = ()

    def faster(self, places: int) -> Settings:
        """So many rates up (or down), as far as they go."""
        return self.model_copy(update={"rate_wpm": _moved(RATES_WPM, self.rate_wpm, places)})

    def louder(self, places: int) -> Settings:
        """So many steps louder (or softer), as far as they go."""
        return self.model_copy(update={"volume": _moved(VOLUMES, self.volume, places)})

    def signed(self, who: str) -> Settings:
        """With this name for the next walk, kept among the names used."""
        name = who.strip()[:40]
        others = tuple(known for known in self.names if known != name)
        return self.model_copy(update={"who": name, "names": ((name,) if name else ()) + others})


def _moved(scale: tuple[float, ...], value: float, places: int) -> float:
    nearest = min(range(len(scale)), key=lambda at: abs(scale[at] - value))
    return scale[max(0, min(len(scale) - 1, nearest + places))]
