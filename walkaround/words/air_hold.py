"""An air hold in words: what is said while it runs, and what it came to.

Rates and limits are in the units that the mechanic chose. Readings stay in the unit of their own
gauge: that is what was seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from walkaround.airhold.atmosphere import corrected_rate_psi_per_min
from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold, HoldReading
from walkaround.airhold.leak_size import (
    SPRING_BRAKES_PSI,
    WARNING_PSI,
    leak_size,
    leak_words,
    minutes_to_psi,
)
from walkaround.airhold.verdict import Assessment, Reason
from walkaround.base.errors import InputError
from walkaround.base.shownunits import in_units
from walkaround.base.units import PressureUnit, Units, from_psi
from walkaround.plan.steps import Plan
from walkaround.rules.limits import HoldRule, Line
from walkaround.vehicle.model import POWER_UNITS

LAST_SECONDS = 5
"""Counted down one by one at the end of the minute."""

_AGAIN = "Wait two minutes, top up to the set pressure, then hold again."
SETTLING: Mapping[Reason, str] = {
    "cooling": f"The air is still cooling, and cooling air looks like a leak. {_AGAIN}",
    "rising": f"The pressure rose. See that the source is shut. {_AGAIN}",
}
"""What to do about air that is still settling."""
# Decimals of a rate, and how many more are tried to tell it from its limit.
_RATE_DECIMALS: Mapping[PressureUnit, int] = {"psi": 1, "kPa": 0, "bar": 2}
_MORE_DECIMALS = 2


def hold_cues(hold: Hold) -> tuple[tuple[float, str], ...]:
    """What is said at its time during an air hold: (seconds into it, words), in order."""
    numbers = [line for line in hold.rule.gauges if not hold.gauge(line).crossing]
    if not numbers:
        return _crossing_cues(hold)
    read = f"Read the {numbers[0]} gauge."
    _, half_s, end_s, *more = hold.marks_s()
    tap = " Tap each mark that the other needle crosses." if hold.crossing else ""
    return (
        (0.0, f"Start. {read}{tap}"),
        (half_s, f"{hold.rule.seconds / 2:g} seconds. {read}"),
        *_countdown(half_s, end_s),
        (end_s, f"Stop. {read}"),
        *((mark_s, read) for mark_s in more[:-1]),
        *((mark_s, f"Last reading. {read}") for mark_s in more[-1:]),
    )


def _crossing_cues(hold: Hold) -> tuple[tuple[float, str], ...]:
    half_s, end_s = hold.marks_s()[1:3]
    return (
        (0.0, "Start. Tap the mark that the needle is on, then each mark as it crosses it."),
        (half_s, f"{hold.rule.seconds / 2:g} seconds."),
        *_countdown(half_s, end_s),
        (end_s, "One minute. Go on tapping until it is clear."),
    )


def _countdown(half_s: float, end_s: float) -> Iterator[tuple[float, str]]:
    if end_s - half_s > 10:
        yield end_s - 10, "10 seconds."
    yield from ((end_s - left_s, str(left_s)) for left_s in range(LAST_SECONDS, 0, -1))


def next_gauge(gauge: str) -> str:
    """Said when one gauge is in and another is to be read at the same mark."""
    return f"Now the {gauge} gauge."


def hold_on(mark_s: float) -> str:
    """Said when the minute is in and undecided, and the gauge is to be read again."""
    return f"Not clear yet. Read at {mark_s:g} seconds."


def hold_texts(hold: Hold) -> tuple[str, ...]:
    """Everything that may be said while it runs, to be rendered before it is needed."""
    said = [text for _, text in hold_cues(hold)]
    said += [next_gauge(gauge) for gauge in hold.rule.gauges[1:]]
    said += [hold_on(mark_s) for mark_s in hold.marks_s()[3:]]
    return tuple(dict.fromkeys(said))


def not_clear(hold: Hold, found: Mapping[Line, Assessment], units: Units) -> str:
    """Shown while the minute is in and undecided: between which rates it still may be."""
    unit, limit_psi = units.pressure, hold.rule.limit_psi_per_min
    undecided = {line: each for line, each in found.items() if each.verdict == "undecided"}
    spans = ", ".join(
        f"{f'{line} ' if len(found) > 1 else ''}{span_words(each, unit)}"
        for line, each in undecided.items()
    )
    doubts = dict.fromkeys(_doubt(each, limit_psi) for each in undecided.values())
    limit = rate_words(limit_psi, unit).removesuffix(f" {unit}/min")
    return f"Not clear yet{''.join(doubts)}: {spans}, limit {limit}."


def _doubt(found: Assessment, limit_psi_per_min: float) -> str:
    """What keeps an undecided gauge from being over, where its bounds do not."""
    return ", a leak or cooling air" if found.low_psi_per_min > limit_psi_per_min else ""


def hold_results(hold: Hold, units: Units) -> str:
    """What an ended hold came to, said: a sentence or two a gauge, then how it ended."""
    parts = [hold_result(line, found, hold, units) for line, found in hold.results().items()]
    return " ".join([*parts, *([ended] if (ended := hold_ending(hold)) else [])])


def hold_result(line: str, found: Assessment, hold: Hold, units: Units) -> str:
    """One gauge's result; where the hold did not decide, the plain rule result, marked so."""
    name = f"{line[:1].upper()}{line[1:]} gauge"
    if found.verdict == "settling":
        return f"{name}: the air is still settling."
    if found.verdict == "undecided":
        doubt = _doubt(found, hold.rule.limit_psi_per_min)
        return f"{name}: undecided{doubt}. By the plain rule it {_lost(found, hold.rule, units)}."
    return f"{name} {_lost(found, hold.rule, units)}."


def plain_rule(found: Assessment, rule: HoldRule, units: Units) -> str:
    """The plain rule result, which stands beside the verdict always."""
    word = "gained" if found.rule_rate_psi_per_min < 0 else "lost"
    rate, _ = _apart(found.rule_rate_psi_per_min, rule.limit_psi_per_min, units.pressure)
    return f"Plain rule: {word} {rate}, {found.rule_verdict}."


def _lost(found: Assessment, rule: HoldRule, units: Units) -> str:
    """What was lost against which limit, without a full stop at the end."""
    decided = found.verdict in ("within", "over")
    lost = found.rate_psi_per_min if decided else found.rule_rate_psi_per_min
    verdict = found.verdict if decided else found.rule_verdict
    rate, limit = _apart(lost, rule.limit_psi_per_min, units.pressure)
    link = ". Within" if verdict == "within" else ". Over"
    if not decided:
        link = link.replace(". ", ": ").lower()
    return f"{'gained' if lost < 0 else 'lost'} {rate}{link} the limit of {limit}"


def hold_ending(hold: Hold) -> str:
    """How an ended hold ended, a sentence; empty where its verdict says all."""
    if hold.ended == "settling":
        reasons = {found.reason for found in hold.results().values()}
        return SETTLING["rising" if "rising" in reasons else "cooling"]
    endings: Mapping[str, str] = {
        "time_up": "Five minutes did not decide it: undecided, so the plain rule result stands.",
        "early": f"Ended early at {hold.ended_s:.0f} seconds: the plain rule result stands.",
    }
    return endings.get(hold.ended, "")


def hold_bounds(found: Assessment, gauge: Gauge, units: Units) -> str:
    """Between which bounds the rate is, with this gauge and so many readings."""
    span, step = span_words(found, units.pressure), f"{gauge.step:g} {gauge.unit}"
    return f"Bounds {span}, on a gauge with marks every {step}."


def limit_words(rule: HoldRule, units: Units) -> str:
    """The limit that counts and where it is from."""
    most = "at most" if rule.equal_passes else "less than"
    source = rule.limit_source
    if rule.limit_provenance not in ("read", source):
        source += f" ({'from memory' if rule.limit_provenance == 'memory' else 'no source'})"
    return f"Limit {most} {rate_words(rule.limit_psi_per_min, units.pressure)}: {source}."


def also_words(rule: HoldRule, units: Units) -> str:
    """The limits that others publish for this vehicle; empty if there are none."""
    if not rule.also:
        return ""
    return in_units(f"Also published: {'; '.join(map(str, rule.also))}.", units)


def leak_text(hold: Hold, plan: Plan, units: Units, altitude_m: float) -> str:
    """The leak in plain terms; empty where the trapped volume is not known."""
    results = hold.results()
    if hold.rule.trapped_l is None or hold.ended == "settling" or not results:
        return ""
    # The reservoirs are on the gauge that is read first.
    line, found = next(iter(results.items()))
    if found.low_psi_per_min <= 0:
        return "The leak is too small to be told from none."
    psi, rate = hold.last_psi(line), found.rate_psi_per_min
    vehicle = plan.vehicle
    warned = vehicle.kind in POWER_UNITS or plan.air == "coupled"
    sprung = any(axle.spring for axle in vehicle.brakes.axles)
    try:
        return leak_words(
            leak_size(hold.rule.trapped_l, psi, rate, altitude_m),
            minutes_to_psi(psi, WARNING_PSI, rate, altitude_m) if warned else None,
            minutes_to_psi(psi, SPRING_BRAKES_PSI, rate, altitude_m) if sprung else None,
            units.pressure,
        )
    except InputError:
        # All the air is gone, or nearly: what matters is the answer, which must stay to be given.
        return "How large the leak is cannot be told from these readings."


def corrected_text(hold: Hold, air_c: tuple[float, float], units: Units, altitude_m: float) -> str:
    """What each gauge would have lost had its air stayed as warm: for information only."""
    start_c, end_c = air_c
    rates = ", ".join(
        f"{line} {rate_words(rate, units.pressure)}"
        for line, rate in _corrected(hold, start_c, end_c, altitude_m)
    )
    air = f"Air {start_c:g} °C at the start, {end_c:g} °C at the end"
    return f"{air}. Loss without what that did: {rates}. For information; the verdict stays."


def _corrected(
    hold: Hold, start_c: float, end_c: float, altitude_m: float
) -> Iterator[tuple[Line, float]]:
    for line, found in hold.results().items():
        looks = [look for look in hold.readings if look.gauge == line]
        last_s = hold.ended_s if hold.gauge(line).crossing else looks[-1].at_s
        held_s = max(1.0, last_s - looks[0].at_s)
        rate = found.rate_psi_per_min
        yield (
            line,
            corrected_rate_psi_per_min(rate, looks[0].psi, start_c, end_c, held_s, altitude_m),
        )


def reading_words(looks: Iterable[HoldReading], gauge: Gauge) -> str:
    """Readings of one gauge as they were seen: "110 at 0 s, 109 at 30 s"."""
    return ", ".join(f"{_shown(look, gauge)} at {look.at_s:.3g} s" for look in looks)


def recorded(hold: Hold) -> str:
    """Every reading for the record: "supply 0 s 110 psi, supply 30 s 109 psi"."""
    return ", ".join(
        f"{look.gauge} {look.at_s:g} s {_shown(look, gauge)} {gauge.unit}"
        f"{' crossed' if gauge.crossing else ''}"
        for look, gauge in _with_gauges(hold)
    )


def _with_gauges(hold: Hold) -> Iterator[tuple[HoldReading, Gauge]]:
    told: Mapping[str, Gauge] = {line: hold.gauge(line) for line in hold.rule.gauges}
    return ((look, told[look.gauge]) for look in hold.readings)


def _shown(look: HoldReading, gauge: Gauge) -> str:
    return f"{round(from_psi(look.psi, gauge.unit), 2):g}"


def span_words(found: Assessment, unit: PressureUnit) -> str:
    """The bounds of a rate: "1.4 to 2.6 psi/min"."""
    low = _number(found.low_psi_per_min, unit, _RATE_DECIMALS[unit])
    return f"{low} to {rate_words(found.high_psi_per_min, unit)}"


def rate_words(psi_per_min: float, unit: PressureUnit) -> str:
    """A rate without a decimal that says nothing: "2 psi/min", "14 kPa/min"."""
    return f"{_number(psi_per_min, unit, _RATE_DECIMALS[unit])} {unit}/min".replace(".0 ", " ")


def _apart(rate: float, limit: float, unit: PressureUnit) -> tuple[str, str]:
    """A loss or gain and its limit, with so many decimals that unequal ones look unequal."""
    rate = abs(rate)
    at_least = _RATE_DECIMALS[unit]
    for decimals in range(at_least, at_least + _MORE_DECIMALS + 1):
        texts = [f"{_number(each, unit, decimals)} {unit}/min" for each in (rate, limit)]
        if texts[0] != texts[1] or math.isclose(rate, limit):
            break
    return texts[0].replace(".0 ", " "), texts[1].replace(".0 ", " ")


def _number(psi: float, unit: PressureUnit, decimals: int) -> str:
    return f"{from_psi(psi, unit):z.{decimals}f}"
