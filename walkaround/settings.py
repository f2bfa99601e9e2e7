"""How the app talks and looks: what the mechanic may set, and its bounds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Literal, get_args

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError

from walkaround.airhold.atmosphere import zero_is_due
from walkaround.airhold.gauge import Gauge
from walkaround.base.plaintext import one_line
from walkaround.base.units import LengthUnit, PressureUnit, Units, from_psi, nearest_whole, to_psi
from walkaround.rules.checklist import Wording
from walkaround.rules.limits import Air, Line, ShopFigures
from walkaround.vehicle.model import POWER_UNITS, Vehicle

RATES_WPM = (120, 140, 160, 180, 200, 220)
"""Speaking rates on offer, words per minute, slow to fast."""
SILENCES_S = (0, 15, 30, 60)
"""After how much silence a step may be said again by itself, seconds; 0 for never."""
VOLUMES = (0.25, 0.5, 0.75, 1.0)
"""Loudness on offer, as a share of the phone's own volume."""
LONGEST_NAME = 40
MOST_NAMES = 20
"""Names kept to tap; a crew has no more."""
MOST_GAUGES = 500
"""Gauges known; a depot has no more."""
Figure = Literal["supply_psi", "service_psi", "released_psi_per_min", "applied_psi_per_min"]
# How far one tap moves a pressure and a rate of the shop's figures.
_MOVES: Mapping[PressureUnit, tuple[float, float]] = {
    "psi": (5.0, 0.5),
    "kPa": (25.0, 2.5),
    "bar": (0.25, 0.025),
}


def _name(name: str) -> str:
    """A name as it may stand in a record: one line, nothing unseen."""
    return one_line(name)[:LONGEST_NAME].strip()


def _names(names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(filter(None, map(_name, names))))[:MOST_NAMES]


OF_SHOP = frozenset({"names", "altitude_m", "gauges", "shop"})
"""Settings that every phone shares; any other belongs to the phone on which it was made."""


class KnownGauge(BaseModel):
    """A gauge as it was told of last.

    Attributes:
        zero_at_m: how high above the sea its zero was seen; None if never.
        zero_on: the day on which; None where that is not known.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    gauge: Gauge
    zero_at_m: float | None = Field(default=None, ge=-500, le=6000, allow_inf_nan=False)
    zero_on: date | None = None


class Settings(BaseModel):
    """The settings of one phone, with those that it shares with the shop's others (`OF_SHOP`).

    A phone without settings of its own uses those in the data folder.

    Attributes:
        wording: short prompts, long ones for the new hire, or brisk ones.
        language: what this phone reads and hears, a code such as `es`; empty for the language of
            the computer that runs walkaround.
        voice: whether prompts are spoken.
        rate_wpm: speaking rate, one of `RATES_WPM`.
        volume: one of `VOLUMES`.
        repeat_s: one of `SILENCES_S`.
        talk: whether this phone listens for spoken answers.
        dark: dark colours, light ones, or as the phone says (None).
        who: the name that the next walk's answers are signed with.
        names: names used before, the latest first.
        pressure, length: units in which limits and results are shown.
        altitude_m: how high above the sea the site is, as told last.
        gauges: the gauges known, by `gauge_key`.
        shop: what this shop goes by for a lone trailer on its air.
        examples: whether the vehicles that come with the app are shown among the others.
        shown_how: whether this phone has seen, or skipped, what a step is like.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    wording: Wording = "short"
    language: str = Field(default="", pattern=r"^([a-z]{2,3})?$")
    voice: bool = True
    rate_wpm: int = Field(default=160, ge=80, le=300)
    volume: float = Field(default=1.0, ge=0, le=1)
    repeat_s: int = Field(default=0, ge=0, le=600)
    talk: bool = False
    dark: bool | None = None
    who: Annotated[str, AfterValidator(_name)] = ""
    names: Annotated[tuple[str, ...], AfterValidator(_names)] = ()
    pressure: PressureUnit = "psi"
    length: LengthUnit = "in"
    altitude_m: float = Field(default=0.0, ge=-500, le=6000)
    gauges: Mapping[str, KnownGauge] = Field(default_factory=dict, max_length=MOST_GAUGES)
    shop: ShopFigures = ShopFigures()
    examples: bool = True
    shown_how: bool = False

    @classmethod
    def saved(cls, values: Mapping[str, object]) -> Settings:
        """Return the settings that were saved; each that does not fit stands at its default."""
        try:
            return cls.model_validate(values)
        except ValidationError as error:
            wrong = {str(detail["loc"][0]) for detail in error.errors(include_url=False)}
            kept = {key: value for key, value in values.items() if key not in wrong}
            return cls.model_validate(kept)

    @property
    def units(self) -> Units:
        """The units in which things are shown."""
        return Units(self.pressure, self.length)

    def gauge(self, vehicle: Vehicle, air: Air, line: Line) -> KnownGauge | None:
        """Recall the gauge that reads this line at this vehicle on this air."""
        return self.gauges.get(gauge_key(vehicle, air, line))

    def gauges_at_zero(
        self, vehicle: Vehicle, air: Air, site_m: float, today: date
    ) -> Mapping[Line, Gauge]:
        """Recall the gauges whose zero was seen today, near enough this altitude.

        Those of another tow unit are never known.
        """
        if vehicle.kind not in POWER_UNITS and air == "coupled":
            return {}
        recalled = {line: self.gauge(vehicle, air, line) for line in get_args(Line)}
        return {
            line: remembered.gauge
            for line, remembered in recalled.items()
            if remembered is not None
            and remembered.zero_on == today
            and not zero_is_due(remembered.zero_at_m, site_m)
        }

    def with_gauges(
        self,
        vehicle: Vehicle,
        air: Air,
        gauges: Mapping[Line, Gauge],
        altitude_m: float,
        zero_on: date | None,
    ) -> Settings:
        """Remember these gauges.

        Args:
            vehicle, air: where they were read.
            gauges: what they are like.
            altitude_m: how high above the sea their zero was seen.
            zero_on: the day on which; None if they were not at zero.
        """
        zero_at_m = None if zero_on is None else altitude_m
        remembered = {
            gauge_key(vehicle, air, line): KnownGauge(
                gauge=gauge, zero_at_m=zero_at_m, zero_on=zero_on
            )
            for line, gauge in gauges.items()
        }
        return self.model_copy(
            update={"gauges": {**self.gauges, **remembered}, "altitude_m": altitude_m}
        )

    def on_phone(self, choices: Mapping[str, object]) -> Settings:
        """Put the settings that were made on a phone in place of the data folder's."""
        own = {name: value for name, value in choices.items() if name not in OF_SHOP}
        return Settings.saved({**self.model_dump(mode="json"), **own})

    def faster(self, places: int) -> Settings:
        """Speak some rates faster (or slower), as far as the rates go."""
        return self.model_copy(update={"rate_wpm": _moved(RATES_WPM, self.rate_wpm, places)})

    def louder(self, places: int) -> Settings:
        """Speak some steps louder (or softer), as far as the steps go."""
        return self.model_copy(update={"volume": _moved(VOLUMES, self.volume, places)})

    def signed(self, who: str) -> Settings:
        """Sign the next walk with this name, and keep it among the names used."""
        name = _name(who)
        return self.model_copy(update={"who": name, "names": _names((name, *self.names))})


def gauge_key(vehicle: Vehicle, air: Air, line: Line) -> str:
    """Whose gauge it is.

    The shop's, at any trailer on its air; a power unit has its own in the dash, and so has the
    unit that tows a coupled trailer, whichever that is.
    """
    if vehicle.kind in POWER_UNITS:
        return f"{vehicle.id}/{line}"
    return f"tow unit/{line}" if air == "coupled" else line


def figure_moved(shop: ShopFigures, figure: Figure, places: int, unit: PressureUnit) -> ShopFigures:
    """Move one of a shop's figures by whole steps of this unit, as far as it may go."""
    pressure, rate = _MOVES[unit]
    step = rate if figure.endswith("_per_min") else pressure
    at = nearest_whole(from_psi(getattr(shop, figure), unit) / step) + places
    try:
        return ShopFigures.model_validate(
            {**shop.model_dump(), figure: round(to_psi(at * step, unit), 6)}
        )
    except ValidationError:
        return shop


def _moved(scale: tuple[float, ...], value: float, places: int) -> float:
    nearest = min(range(len(scale)), key=lambda at: abs(scale[at] - value))
    return scale[max(0, min(len(scale) - 1, nearest + places))]
