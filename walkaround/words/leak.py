"""A leak in plain terms, and what holds go by: gauges, altitude, temperature, figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.airhold.atmosphere import (
    ZERO_C_IN_K,
    corrected_rate_psi_per_min,
    isa_temperature_k,
    sealed_reading_psi,
)
from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.airhold.leak_size import (
    DISCHARGE,
    SPRING_BRAKES_PSI,
    WARNING_PSI,
    LeakSize,
    leak_size,
    minutes_to_psi,
)
from walkaround.base.errors import InputError
from walkaround.base.message import Message, Quantity, message
from walkaround.base.units import PressureUnit, pressure_text
from walkaround.plan.steps import Plan
from walkaround.rules.limits import Line, ShopFigures
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.events import GaugesTold
from walkaround.words.air_hold import gauge_name, rate_words
from walkaround.words.language import Words

# One decimal more than a gauge shows: altitude moves it by little.
_DECIMALS: Mapping[PressureUnit, int] = {"psi": 1, "kPa": 0, "bar": 2}
_LEAST_MOVE_PSI = 0.05


def leak_text(hold: Hold, plan: Plan, words: Words, altitude_m: float) -> str:
    """Write the leak in plain terms; empty where the trapped volume is not known."""
    results = hold.results()
    if hold.rule.trapped_l is None or hold.ended == "settling" or not results:
        return ""
    # The reservoirs are on the gauge that is read first.
    line, assessment = next(iter(results.items()))
    if assessment.low_psi_per_min <= 0:
        return words("leak-too-small")
    psi, rate = hold.last_psi(line), assessment.rate_psi_per_min
    vehicle = plan.vehicle
    warned = vehicle.kind in POWER_UNITS or plan.air == "coupled"
    sprung = any(axle.spring for axle in vehicle.brakes.axles)
    try:
        return leak_words(
            leak_size(hold.rule.trapped_l, psi, rate, altitude_m),
            minutes_to_psi(psi, WARNING_PSI, rate, altitude_m) if warned else None,
            minutes_to_psi(psi, SPRING_BRAKES_PSI, rate, altitude_m) if sprung else None,
            words,
        )
    except InputError:
        # All the air is gone, or nearly: what matters is the answer, which must stay to be given.
        return words("leak-untold")


def leak_words(
    size: LeakSize,
    minutes_to_warning: float | None,
    minutes_to_spring_brakes: float | None,
    words: Words,
) -> str:
    """Write a leak for people: its size, how long until it matters, and what is assumed.

    Args:
        size: the leak.
        minutes_to_warning, minutes_to_spring_brakes: from `minutes_to_psi` down to `WARNING_PSI`
            and `SPRING_BRAKES_PSI`; None where the vehicle has no such thing.
        words: the language, and the units of the text.
    """
    if size.l_per_min == 0:
        return words("leak-none")
    falls = []
    if minutes_to_warning is not None:
        warning = Quantity(value=WARNING_PSI, unit="psi")
        when = _when(minutes_to_warning)
        falls.append(message("leak-to-warning", pressure=warning, when=when))
    if minutes_to_spring_brakes is not None:
        springs = Quantity(value=SPRING_BRAKES_PSI, unit="psi")
        when = _when(minutes_to_spring_brakes)
        falls.append(message("leak-to-spring-brakes", pressure=springs, when=when))
    sentences = [
        words(
            "leak-size",
            flow=Quantity(value=size.l_per_min, unit="l_per_min"),
            hole=Quantity(value=size.hole_mm, unit="bore_mm"),
        ),
        words("leak-falls", falls=tuple(falls)) if falls else "",
        words(
            "leak-assumed",
            volume=Quantity(value=size.volume_l, unit="l"),
            discharge=f"{DISCHARGE:g}",
        ),
    ]
    return " ".join(sentence for sentence in sentences if sentence)


def altitude_text(metres: float) -> Quantity:
    """Write a height above the sea: "250 m", or "820 ft"."""
    return Quantity(value=metres, unit="m")


def altitude_words(set_psi: float, from_m: float, to_m: float, words: Words) -> str:
    """Tell what a gauge on air trapped at one altitude shows at another, for people.

    Two sentences, with the air as warm as before and with it as cold or warm as the standard
    atmosphere; one if the move does not show.
    """
    start, end = altitude_text(from_m), altitude_text(to_m)
    same_warmth = sealed_reading_psi(set_psi, from_m, to_m, with_temperature=False)
    if abs(same_warmth - set_psi) < _LEAST_MOVE_PSI:
        return words("altitude-same", start=start, end=end)
    unit = words.units.pressure
    taken_on = sealed_reading_psi(set_psi, from_m, to_m, with_temperature=True)
    return words(
        "altitude-other",
        start=start,
        end=end,
        up="yes" if to_m > from_m else "no",
        set=pressure_text(set_psi, unit, _DECIMALS[unit]),
        same=pressure_text(same_warmth, unit, _DECIMALS[unit]),
        taken=pressure_text(taken_on, unit, _DECIMALS[unit]),
        start_c=_degrees(from_m),
        end_c=_degrees(to_m),
    )


def _degrees(altitude_m: float) -> Quantity:
    celsius = isa_temperature_k(altitude_m) - ZERO_C_IN_K
    return Quantity(value=celsius, unit="celsius", decimals=0)


def _when(minutes: float) -> Message:
    if minutes == 0:
        return message("leak-now")
    if minutes < 1:
        return message("leak-soon")
    if minutes < 120:
        return message("leak-minutes", minutes=f"{minutes:.0f}")
    if minutes < 24 * 60:
        return message("leak-hours", hours=f"{minutes / 60:.0f}")
    return message("leak-days")


def corrected_text(hold: Hold, air_c: tuple[float, float], words: Words, altitude_m: float) -> str:
    """Tell what each gauge would have lost had its air stayed as warm: for information only."""
    start_c, end_c = air_c
    unit = words.units.pressure
    rates = [
        words("hold-of-gauge", gauge=gauge_name(line), rate=rate_words(rate, unit))
        for line, rate in _corrected(hold, start_c, end_c, altitude_m)
    ]
    start, end = (Quantity(value=each, unit="celsius") for each in air_c)
    return words("hold-corrected", start=start, end=end, rates=words.row(rates))


def _corrected(
    hold: Hold, start_c: float, end_c: float, altitude_m: float
) -> Iterator[tuple[Line, float]]:
    for line, assessment in hold.results().items():
        looks = [look for look in hold.readings if look.gauge == line]
        last_s = hold.ended_s if hold.gauge(line).crossing else looks[-1].at_s
        held_s = max(1.0, last_s - looks[0].at_s)
        rate = assessment.rate_psi_per_min
        yield (
            line,
            corrected_rate_psi_per_min(rate, looks[0].psi, start_c, end_c, held_s, altitude_m),
        )


def gauges_text(gauges_told: GaugesTold, words: Words) -> str:
    """Tell what the gauges of a walk are like: "supply: psi, marks of 1; zero seen at 250 m"."""
    if gauges_told.at_zero:
        zero = words("gauges-zero", altitude=altitude_text(gauges_told.altitude_m))
    else:
        zero = words("gauges-not-zero")
    return "; ".join([*marks_text(gauges_told.gauges, words), zero])


def remembered_text(plan: Plan, words: Words) -> str:
    """Write the gauges that a walk took over from an earlier one; empty if it asked for them."""
    if not plan.known_gauges:
        return ""
    gauges = "; ".join(marks_text(plan.known_gauges, words))
    return words("gauges-remembered", gauges=gauges, altitude=altitude_text(plan.altitude_m))


def marks_text(gauges: Mapping[Line, Gauge], words: Words) -> list[str]:
    """Tell what each of these gauges is like: "supply: psi, marks of 1"."""
    return [
        words(
            "gauge-told-crossing" if gauge.crossing else "gauge-told",
            gauge=message(f"gauge-{line}"),
            unit=gauge.unit,
            step=f"{gauge.step:g}",
        )
        for line, gauge in gauges.items()
    ]


def figures_text(shop: ShopFigures, words: Words) -> str:
    """Tell what a lone trailer on shop air was charged to and held against, and whose figures."""
    return words(
        "shop-figures",
        supply=figure_quantity(shop, "supply_psi", words),
        service=figure_quantity(shop, "service_psi", words),
        released=figure_quantity(shop, "released_psi_per_min", words),
        applied=figure_quantity(shop, "applied_psi_per_min", words),
        whose="shop" if shop.own else "shipped",
    )


def figure_quantity(shop: ShopFigures, name: str, words: Words) -> Quantity:
    """Give one of a shop's figures with its unit; with decimals where psi are not whole."""
    value = getattr(shop, name)
    unit = name.partition("_")[2]
    decimals = 1 if words.units.pressure == "psi" and not value.is_integer() else None
    return Quantity.model_validate({"value": value, "unit": unit, "decimals": decimals})
