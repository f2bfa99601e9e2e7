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
from walkaround.airhold.verdict import Assessment
from walkaround.base.message import Message, Text, message
from walkaround.base.units import PressureUnit, from_psi
from walkaround.rules.limits import HoldRule, Line
from walkaround.words.language import Words

LAST_SECONDS = 5
"""Counted down one by one at the end of the minute."""

# Decimals of a rate, and how many more are tried to tell it from its limit.
_RATE_DECIMALS: Mapping[PressureUnit, int] = {"psi": 1, "kPa": 0, "bar": 2}
_MORE_DECIMALS = 2


def gauge_name(line: str) -> Message:
    """Name a gauge by what its air is for: "supply"."""
    return message(f"gauge-{line}")


def hold_cues(hold: Hold, words: Words) -> tuple[tuple[float, str], ...]:
    """What is said at its time during an air hold: (seconds into it, words), in order."""
    half_s, end_s, *more = hold.marks_s()[1:]
    half = f"{hold.rule.seconds / 2:g}"
    numbers = [line for line in hold.rule.gauges if not hold.gauge(line).crossing]
    if not numbers:
        return (
            (0.0, words("hold-cue-start-crossing")),
            (half_s, words("hold-cue-seconds", seconds=half)),
            *_countdown(half_s, end_s, words),
            (end_s, words("hold-cue-go-on")),
        )
    gauge = gauge_name(numbers[0])
    return (
        (0.0, words("hold-cue-start-mixed" if hold.crossing else "hold-cue-start", gauge=gauge)),
        (half_s, words("hold-cue-half", seconds=half, gauge=gauge)),
        *_countdown(half_s, end_s, words),
        (end_s, words("hold-cue-stop", gauge=gauge)),
        *((mark_s, words("hold-cue-more", gauge=gauge)) for mark_s in more[:-1]),
        *((mark_s, words("hold-cue-last", gauge=gauge)) for mark_s in more[-1:]),
    )


def _countdown(half_s: float, end_s: float, words: Words) -> Iterator[tuple[float, str]]:
    if end_s - half_s > 10:
        yield end_s - 10, words("hold-cue-seconds", seconds=10)
    yield from ((end_s - left_s, str(left_s)) for left_s in range(LAST_SECONDS, 0, -1))


def next_gauge(gauge: Line, words: Words) -> str:
    """Said when one gauge is in and another is to be read at the same mark."""
    return words("hold-next-gauge", gauge=gauge_name(gauge))


def hold_on(mark_s: float, words: Words) -> str:
    """Said when the minute is in and undecided, and the gauge is to be read again."""
    return words("hold-on", seconds=f"{mark_s:g}")


def hold_texts(hold: Hold, words: Words) -> tuple[str, ...]:
    """Everything that may be said while it runs, to be rendered before it is needed."""
    said = [text for _, text in hold_cues(hold, words)]
    said += [next_gauge(gauge, words) for gauge in hold.rule.gauges[1:]]
    said += [hold_on(mark_s, words) for mark_s in hold.marks_s()[3:]]
    return tuple(dict.fromkeys(said))


def not_clear(hold: Hold, found: Mapping[Line, Assessment], words: Words) -> str:
    """Shown while the minute is in and undecided: between which rates it still may be."""
    unit, limit_psi = words.units.pressure, hold.rule.limit_psi_per_min
    undecided = {line: each for line, each in found.items() if each.verdict == "undecided"}
    spans = [
        words("hold-of-gauge", gauge=gauge_name(line), rate=span_words(each, words))
        if len(found) > 1
        else span_words(each, words)
        for line, each in undecided.items()
    ]
    doubted = any(_doubted(each, limit_psi) for each in undecided.values())
    limit = rate_words(limit_psi, unit).removesuffix(f" {unit}/min")
    return words("hold-not-clear", doubt=_yes(doubted), spans=words.row(spans), limit=limit)


def _doubted(found: Assessment, limit_psi_per_min: float) -> bool:
    """Whether cooling air alone keeps an undecided gauge from being over: its bounds do not."""
    return found.low_psi_per_min > limit_psi_per_min


def hold_results(hold: Hold, words: Words) -> str:
    """What an ended hold came to, said: a sentence or two a gauge, then how it ended."""
    parts = [hold_result(line, found, hold, words) for line, found in hold.results().items()]
    return " ".join([*parts, *([ended] if (ended := hold_ending(hold, words)) else [])])


def hold_result(line: str, found: Assessment, hold: Hold, words: Words) -> str:
    """One gauge's result; where the hold did not decide, the plain rule result, marked so."""
    gauge, limit_psi = gauge_name(line), hold.rule.limit_psi_per_min
    if found.verdict == "settling":
        return words("hold-result-settling", gauge=gauge)
    undecided = found.verdict == "undecided"
    lost = found.rule_rate_psi_per_min if undecided else found.rate_psi_per_min
    rate, limit = _apart(lost, limit_psi, words.units.pressure)
    if undecided:
        return words(
            "hold-result-undecided",
            gauge=gauge,
            doubt=_yes(_doubted(found, limit_psi)),
            moved=_moved(lost),
            rate=rate,
            verdict=found.rule_verdict,
            limit=limit,
        )
    return words(
        "hold-result",
        gauge=gauge,
        moved=_moved(lost),
        rate=rate,
        verdict=found.verdict,
        limit=limit,
    )


def plain_rule(found: Assessment, rule: HoldRule, words: Words) -> str:
    """The plain rule result, which stands beside the verdict always."""
    lost = found.rule_rate_psi_per_min
    rate, _ = _apart(lost, rule.limit_psi_per_min, words.units.pressure)
    verdict = message(f"verdict-{found.rule_verdict}")
    return words("hold-plain-rule", moved=_moved(lost), rate=rate, verdict=verdict)


def _moved(lost: float) -> str:
    return "gained" if lost < 0 else "lost"


def _yes(so: bool) -> str:
    return "yes" if so else "no"


def hold_ending(hold: Hold, words: Words) -> str:
    """How an ended hold ended, a sentence; empty where its verdict says all."""
    match hold.ended:
        case "settling":
            reasons = {found.reason for found in hold.results().values()}
            return words(f"hold-settling-{'rising' if 'rising' in reasons else 'cooling'}")
        case "time_up":
            return words("hold-ended-time-up")
        case "early":
            return words("hold-ended-early", seconds=f"{hold.ended_s:.0f}")
        case _:
            return ""


def hold_bounds(found: Assessment, gauge: Gauge, words: Words) -> str:
    """Between which bounds the rate is, with this gauge and so many readings."""
    step = f"{gauge.step:g} {gauge.unit}"
    return words("hold-bounds", span=span_words(found, words), step=step)


def limit_words(rule: HoldRule, words: Words) -> str:
    """The limit that counts and where it is from."""
    source: Text = rule.limit_source
    if rule.limit_provenance not in ("read", source):
        memory = rule.limit_provenance == "memory"
        source = message("source-from-memory" if memory else "source-none", source=source)
    limit = rate_words(rule.limit_psi_per_min, words.units.pressure)
    return words("hold-limit", strict=_yes(not rule.equal_passes), limit=limit, source=source)


def also_words(rule: HoldRule, words: Words) -> str:
    """The limits that others publish for this vehicle; empty if there are none."""
    if not rule.also:
        return ""
    also = "; ".join(words.text(each) for each in rule.also)
    return words("hold-also", also=also)


def corrected_text(hold: Hold, air_c: tuple[float, float], words: Words, altitude_m: float) -> str:
    """What each gauge would have lost had its air stayed as warm: for information only."""
    start_c, end_c = air_c
    unit = words.units.pressure
    rates = [
        words("hold-of-gauge", gauge=gauge_name(line), rate=rate_words(rate, unit))
        for line, rate in _corrected(hold, start_c, end_c, altitude_m)
    ]
    start, end = f"{start_c:g}", f"{end_c:g}"
    return words("hold-corrected", start=start, end=end, rates=words.row(rates))


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


def reading_words(looks: Iterable[HoldReading], gauge: Gauge, words: Words) -> str:
    """Readings of one gauge as they were seen: "110 at 0 s, 109 at 30 s"."""
    return words.row(
        words("hold-reading", value=_shown(look, gauge), seconds=f"{look.at_s:.3g}")
        for look in looks
    )


def recorded(hold: Hold, words: Words) -> str:
    """Every reading for the record: "supply 0 s 110 psi, supply 30 s 109 psi"."""
    return words.row(
        words(
            "hold-recorded-crossed" if gauge.crossing else "hold-recorded",
            gauge=gauge_name(look.gauge),
            seconds=f"{look.at_s:g}",
            value=_shown(look, gauge),
            unit=gauge.unit,
        )
        for look, gauge in _with_gauges(hold)
    )


def _with_gauges(hold: Hold) -> Iterator[tuple[HoldReading, Gauge]]:
    told: Mapping[str, Gauge] = {line: hold.gauge(line) for line in hold.rule.gauges}
    return ((look, told[look.gauge]) for look in hold.readings)


def _shown(look: HoldReading, gauge: Gauge) -> str:
    return f"{round(from_psi(look.psi, gauge.unit), 2):g}"


def span_words(found: Assessment, words: Words) -> str:
    """The bounds of a rate: "1.4 to 2.6 psi/min"."""
    unit = words.units.pressure
    low = _number(found.low_psi_per_min, unit, _RATE_DECIMALS[unit])
    return words("hold-span", low=low, high=rate_words(found.high_psi_per_min, unit))


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
