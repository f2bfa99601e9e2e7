"""Settings: rates and volumes stay on their scales, names are remembered, old files still read."""

from __future__ import annotations

from datetime import date, timedelta
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from support.walks import vehicle

from walkaround.airhold.gauge import Gauge
from walkaround.base.units import LengthUnit, PressureUnit
from walkaround.rules.limits import Line, ShopFigures
from walkaround.settings import (
    LONGEST_NAME,
    MOST_NAMES,
    RATES_WPM,
    VOLUMES,
    Figure,
    Settings,
    figure_moved,
)
from walkaround.vehicle.model import Vehicle

TODAY = date(2026, 11, 25)


@given(st.integers(80, 300), st.integers(-9, 9))
def test_the_rate_moves_along_its_scale_and_stops_at_the_ends(wpm: int, places: int) -> None:
    settings = Settings(rate_wpm=wpm)
    assert settings.faster(places).rate_wpm in RATES_WPM
    assert settings.faster(places - 1).rate_wpm <= settings.faster(places).rate_wpm
    assert settings.faster(-9).rate_wpm == RATES_WPM[0]
    assert settings.faster(9).rate_wpm == RATES_WPM[-1]


def test_the_scales_rise_and_hold_the_defaults() -> None:
    assert list(RATES_WPM) == sorted(set(RATES_WPM))
    assert list(VOLUMES) == sorted(set(VOLUMES))
    assert Settings().rate_wpm in RATES_WPM
    assert Settings().volume in VOLUMES


@pytest.mark.parametrize(
    ("before", "places", "after"),
    [(160, 1, 180), (160, -1, 140), (220, 1, 220), (120, -1, 120), (165, 1, 180), (300, -1, 200)],
)
def test_one_place_faster_or_slower(before: int, places: int, after: int) -> None:
    assert Settings(rate_wpm=before).faster(places).rate_wpm == after


@pytest.mark.parametrize(
    ("before", "places", "after"),
    [(1.0, 1, 1.0), (1.0, -1, 0.75), (0.25, -1, 0.25), (0.5, 1, 0.75)],
)
def test_one_place_louder_or_softer(before: float, places: int, after: float) -> None:
    assert Settings(volume=before).louder(places).volume == after


def test_the_latest_name_stands_first_and_once() -> None:
    settings = Settings().signed("Ana").signed("Kim").signed("  Ana ")
    assert settings.who == "Ana"
    assert settings.names == ("Ana", "Kim")


def test_no_name_is_no_name_to_remember() -> None:
    settings = Settings().signed("Ana").signed("   ")
    assert (settings.who, settings.names) == ("", ("Ana",))


def test_a_long_name_is_cut_to_what_fits() -> None:
    assert len(Settings().signed("x" * 200).who) == 40


@given(st.text(), st.text())
def test_any_name_can_be_saved_and_read_again(one: str, other: str) -> None:
    settings = Settings().signed(one).signed(other)
    assert Settings.model_validate(settings.model_dump(mode="json")) == settings


def of(kind: str, id_: str = "pump_trailer_3") -> Vehicle:
    return vehicle(id_).model_copy(update={"kind": kind})


def test_the_shops_gauges_are_known_at_every_trailer() -> None:
    told: dict[Line, Gauge] = {"supply": Gauge(name="supply", unit="bar", step=0.5)}
    settings = Settings().with_gauges(of("semitrailer"), "shop", told, 250.0, TODAY)
    known = settings.gauge(of("full trailer", "other_trailer"), "shop", "supply")
    assert known is not None
    assert (known.gauge, known.zero_at_m) == (told["supply"], 250.0)
    assert settings.altitude_m == 250.0
    assert settings.gauge(of("semitrailer"), "shop", "service") is None


def test_a_coupled_trailers_gauges_are_the_tow_units_and_leave_the_shops_alone() -> None:
    shops: dict[Line, Gauge] = {"supply": Gauge(name="supply", unit="bar", step=0.1)}
    cabs: dict[Line, Gauge] = {"supply": Gauge(name="supply", step=10.0)}
    trailer = of("semitrailer")
    settings = Settings().with_gauges(trailer, "shop", shops, 0.0, TODAY)
    settings = settings.with_gauges(trailer, "coupled", cabs, 0.0, TODAY)
    shop, cab = (settings.gauge(trailer, air, "supply") for air in ("shop", "coupled"))
    assert shop is not None
    assert cab is not None
    assert (shop.gauge, cab.gauge) == (shops["supply"], cabs["supply"])
    assert settings.gauges_at_zero(trailer, "shop", 0.0, TODAY) == shops
    # The next tow unit has other gauges.
    assert settings.gauges_at_zero(trailer, "coupled", 0.0, TODAY) == {}


@pytest.mark.parametrize(
    ("site_m", "days_later", "known"),
    [(0.0, 0, True), (300.0, 0, True), (301.0, 0, False), (0.0, 1, False), (0.0, -1, False)],
)
def test_a_zero_counts_for_the_same_day_at_about_the_same_altitude(
    site_m: float, days_later: int, known: bool
) -> None:
    told: dict[Line, Gauge] = {"supply": Gauge(name="supply")}
    settings = Settings().with_gauges(of("semitrailer"), "shop", told, 0.0, TODAY)
    day = TODAY + timedelta(days=days_later)
    assert settings.gauges_at_zero(of("semitrailer"), "shop", site_m, day) == (
        told if known else {}
    )


def test_gauges_of_an_older_file_are_known_but_their_zero_is_asked_again() -> None:
    old = {"gauges": {"supply": {"gauge": {"name": "supply", "step": 2.0}, "zero_at_m": 10.0}}}
    settings = Settings.saved(old)
    known = settings.gauge(of("semitrailer"), "shop", "supply")
    assert known is not None
    assert (known.gauge.step, known.zero_at_m) == (2.0, 10.0)
    assert settings.gauges_at_zero(of("semitrailer"), "shop", 10.0, TODAY) == {}
    assert settings.shop == ShopFigures()


def test_figures_of_a_shop_that_no_gauge_shows_fall_back_to_what_ships() -> None:
    settings = Settings.saved({"shop": {"supply_psi": 900, "own": True}, "wording": "long"})
    assert settings.shop == ShopFigures()
    assert settings.wording == "long"


def test_a_power_unit_has_gauges_of_its_own() -> None:
    told: dict[Line, Gauge] = {"primary": Gauge(name="primary", step=5.0)}
    settings = Settings().with_gauges(of("truck", "truck_1"), "coupled", told, 0.0, TODAY)
    assert settings.gauges_at_zero(of("truck", "truck_1"), "coupled", 0.0, TODAY) == told
    assert settings.gauge(of("truck", "truck_2"), "coupled", "primary") is None


def test_a_gauge_that_was_not_at_zero_is_looked_at_again() -> None:
    told: dict[Line, Gauge] = {"supply": Gauge(name="supply")}
    settings = Settings().with_gauges(of("semitrailer"), "shop", told, 100.0, TODAY)
    settings = settings.with_gauges(of("semitrailer"), "shop", told, 100.0, None)
    known = settings.gauge(of("semitrailer"), "shop", "supply")
    assert known is not None
    assert (known.zero_at_m, known.zero_on) == (None, None)


@given(st.sampled_from(get_args(PressureUnit)), st.sampled_from(get_args(LengthUnit)))
def test_units_and_gauges_can_be_saved_and_read_again(
    pressure: PressureUnit, length: LengthUnit
) -> None:
    told: dict[Line, Gauge] = {"supply": Gauge(name="supply", unit=pressure, step=0.5)}
    settings = Settings(pressure=pressure, length=length)
    settings = settings.with_gauges(of("semitrailer"), "shop", told, -10.0, TODAY)
    again = Settings.model_validate(settings.model_dump(mode="json"))
    assert again == settings
    assert again.units == (pressure, length)


def test_a_setting_of_a_later_version_is_passed_over() -> None:
    assert Settings.model_validate({"wording": "long", "hologram": True}).wording == "long"


@pytest.mark.parametrize(
    "values",
    [{"wording": "none"}, {"rate_wpm": 10}, {"volume": 2}, {"who": 3}, {"pressure": "atm"}],
)
def test_a_value_that_cannot_be_is_refused(values: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Settings.model_validate(values)


def test_what_was_saved_and_does_not_fit_stands_at_its_default_and_the_rest_stays() -> None:
    saved = {
        "who": "Ana",
        "rate_wpm": 10**400,
        "volume": float("nan"),
        "altitude_m": float("inf"),
        "gauges": {"supply": {"gauge": {"name": "supply"}, "zero_at_m": float("nan")}},
        "dark": True,
        "of a later version": [],
    }
    assert Settings.saved(saved) == Settings(who="Ana", dark=True)


def test_names_are_one_line_each_once_and_not_too_many() -> None:
    odd = ["Ana", "A\u202ena", " Ana\n", "\x1b", "", "x" * 99, *(f"Kim {n}" for n in range(99))]
    settings = Settings.saved({"names": odd, "who": "Ana\tB\u200b"})
    assert settings.who == "Ana B"
    assert settings.names[:3] == ("Ana", "x" * LONGEST_NAME, "Kim 0")
    assert len(settings.names) == MOST_NAMES
    assert len(settings.signed("Kim 99").names) == MOST_NAMES
    assert settings.signed("Kim\u202e\n 99").names[:2] == ("Kim 99", "Ana")


@given(st.dictionaries(st.sampled_from([*Settings.model_fields, "x"]), st.none() | st.text()))
def test_whatever_was_saved_gives_settings(values: dict[str, object]) -> None:
    assert isinstance(Settings.saved(values), Settings)


@pytest.mark.parametrize(
    ("figure", "places", "unit", "psi"),
    [
        ("supply_psi", 1, "psi", 115.0),
        ("supply_psi", -2, "psi", 100.0),
        ("supply_psi", -3, "psi", 110.0),
        ("service_psi", 3, "psi", 90.0),
        ("released_psi_per_min", -1, "psi", 1.5),
        ("released_psi_per_min", -4, "psi", 2.0),
        ("applied_psi_per_min", 1, "psi", 3.5),
        # 110 psi are 758.4 kPa, nearest 750; the next is 775 kPa, 112.4 psi.
        ("supply_psi", 1, "kPa", 112.404),
        ("supply_psi", 1, "bar", 112.404),
    ],
)
def test_a_shops_figures_move_by_whole_steps_and_stop_where_no_gauge_goes(
    figure: Figure, places: int, unit: PressureUnit, psi: float
) -> None:
    moved = figure_moved(ShopFigures(), figure, places, unit)
    assert getattr(moved, figure) == pytest.approx(psi, abs=1e-3)
    assert not moved.own
