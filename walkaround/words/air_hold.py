"""An air hold in words: what is said while it runs, and what it came to.

Rates and limits are in the units that the mechanic chose. Readings stay in the unit of their own
gauge: that is what was seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold, HoldReading, final_verdict
from walkaround.airhold.verdict import Assessment
from walkaround.base.message import Argument, Message, Text, message
from walkaround.base.units import PressureUnit, from_psi
from walkaround.rules.limits import HoldRule, Line
from walkaround.walk.advance import fold
from walkaround.walk.state import Defect, Walk
from walkaround.words.language import Words, capital

LAST_SECONDS = 5
"""Counted down one by one at the end of the minute."""

# Decimals of a rate, and how many more are tried to tell it from its limit.
_RATE_DECIMALS: Mapping[PressureUnit, int] = {"psi": 1, "kPa": 0, "bar": 2}
_MORE_DECIMALS = 2


def gauge_name(line: str) -> Message:
    """Name a gauge by the line that it reads: "supply"."""
    return message(f"gauge-{line}")


def hold_cues(hold: Hold, words: Words) -> tuple[tuple[float, str], ...]:
    """Tell what is said at its time during an air hold: (seconds into it, words), in order."""
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
    """Ask for the next gauge that is to be read at the same mark."""
    return words("hold-next-gauge", gauge=gauge_name(gauge))


def hold_on(hold: Hold, results: Mapping[Line, Assessment], mark_s: float, words: Words) -> str:
    """Say, when the minute is over and undecided, why, and when the gauge is to be read again."""
    return f"{not_clear(hold, results, words)} {words('hold-on', seconds=f'{mark_s:g}')}"


def hold_texts(hold: Hold, words: Words) -> tuple[str, ...]:
    """Tell what is said at its marks and between its gauges, to be rendered before it is needed."""
    texts = [text for _, text in hold_cues(hold, words)]
    texts += [next_gauge(gauge, words) for gauge in hold.rule.gauges[1:]]
    return tuple(dict.fromkeys(texts))


def not_clear(hold: Hold, results: Mapping[Line, Assessment], words: Words) -> str:
    """Say why the hold is not decided though the minute is over, for each gauge that is not."""
    whys = {
        line: doubt(result, hold.rule.limit_psi_per_min, hold.gauge(line).unit, words)
        for line, result in results.items()
        if result.verdict == "undecided"
    }
    reasons = [
        words("hold-why-of-gauge", gauge=gauge_name(line), why=why) if len(results) > 1 else why
        for line, why in whys.items()
    ]
    return words("hold-not-clear", whys=" ".join(reasons))


def doubt(result: Assessment, limit_psi_per_min: float, read_in: PressureUnit, words: Words) -> str:
    """Tell why a gauge is undecided, or which reading does not fit, with its full stop.

    Empty if there is no doubt.

    Args:
        result: what the gauge came to.
        limit_psi_per_min: most that may be lost.
        read_in: the unit of the gauge.
        words: the language, and the unit of rates.
    """
    unit = words.units.pressure
    if result.misread:
        at_s, psi = result.misread
        return words("hold-does-not-fit", value=_read(psi, read_in), seconds=f"{at_s:.4g}")
    match result.reason:
        case "misread":
            return words("hold-why-misread")
        case "few":
            return words("hold-why-few")
        case "cooling" if result.verdict == "undecided":
            return words("hold-why-cooling", rate=_rate(result.rate_psi_per_min, unit))
        case "bounds":
            # Nothing leaks in: what may be less than none may be none.
            low_psi, high_psi = max(0.0, result.low_psi_per_min), result.high_psi_per_min
            low, high, limit = (_rate(x, unit) for x in (low_psi, high_psi, limit_psi_per_min))
            return words("hold-why-bounds", low=low, high=high, limit=limit)
        case _:
            return ""


def hold_results(hold: Hold, words: Words) -> str:
    """Tell what an ended hold came to, said: a sentence or two a gauge, then how it ended."""
    parts = [hold_result(line, result, hold, words) for line, result in hold.results().items()]
    return " ".join([*parts, *([ended] if (ended := hold_ending(hold, words)) else [])])


def hold_result(line: Line, result: Assessment, hold: Hold, words: Words) -> str:
    """Write one gauge's result; if the hold did not decide, why, and the plain rule result."""
    gauge, limit_psi = gauge_name(line), hold.rule.limit_psi_per_min
    if result.verdict == "settling":
        return words(f"hold-result-{verdict_shown(result)}", gauge=gauge)
    undecided = result.verdict == "undecided"
    lost = result.rule_rate_psi_per_min if undecided else result.rate_psi_per_min
    rate, limit = _rate_and_limit(lost, limit_psi, words.units.pressure)
    arguments: dict[str, Argument] = {
        "gauge": gauge,
        "moved": _moved(lost),
        "rate": rate,
        "limit": limit,
    }
    why = doubt(result, limit_psi, hold.gauge(line).unit, words)
    if not undecided:
        return f"{words('hold-result', verdict=result.verdict, **arguments)} {why}".rstrip()
    if hold.ended == "settling":
        return words("hold-result-none", gauge=gauge, why=why)
    return words("hold-result-undecided", why=why, verdict=result.rule_verdict, **arguments)


def plain_rule(result: Assessment, limit_psi_per_min: float, words: Words) -> str:
    """Return the plain rule result, which stands beside the verdict always."""
    lost = result.rule_rate_psi_per_min
    rate, _ = _rate_and_limit(lost, limit_psi_per_min, words.units.pressure)
    verdict = message(f"verdict-{result.rule_verdict}")
    return words("hold-plain-rule", moved=_moved(lost), rate=rate, verdict=verdict)


def verdict_words(result: Assessment, rule: HoldRule, words: Words) -> str:
    """Write the verdict of one gauge, with what decides it: "Within limit: 0.6 (max 2)"."""
    if result.verdict not in ("within", "over"):
        return capital(words(f"verdict-{verdict_shown(result)}"))
    unit, limit_psi = words.units.pressure, rule.limit_psi_per_min
    # A rise is told by the plain rule below, since no pressure was lost.
    rate, limit = _rate_and_limit(max(0.0, result.rate_psi_per_min), limit_psi, unit)
    rate, limit = (text.removesuffix(f" {unit}/min") for text in (rate, limit))
    strict = _yes(not rule.equal_passes)
    return words(f"hold-verdict-{result.verdict}", rate=rate, limit=limit, strict=strict)


def verdict_shown(result: Assessment) -> str:
    """Return the verdict as it is told: what rose is not called settling."""
    return "rising" if result.reason == "rising" else result.verdict


def _moved(lost: float) -> str:
    return "gained" if lost < 0 else "lost"


def _yes(so: bool) -> str:
    return "yes" if so else "no"


def hold_figures(walk: Walk, defect: Defect, words: Words) -> str:
    """Tell what the hold lost that found this defect, not one that was held since."""
    then = fold(event for event in walk.events if event.seq <= defect.found.seq)
    hold = then.holds.get(defect.step)
    results = hold.results() if hold and hold.ended else {}
    over = [line for line, result in results.items() if final_verdict(result) == "over"]
    return " ".join(hold_result(line, results[line], hold, words) for line in over if hold)


def hold_ending(hold: Hold, words: Words) -> str:
    """Tell how an ended hold ended, a sentence; empty where its verdict says all."""
    if hold.ended == "settling":
        reasons = {result.reason for result in hold.results().values()}
        other = "uneven" if _has_risen(hold) else "cooling"
        why = next((each for each in ("rising", "misread") if each in reasons), other)
        return words(f"hold-settling-{why}")
    if hold.ended == "early":
        return words("hold-ended-early", seconds=f"{hold.ended_s:.0f}")
    return words("hold-ended-time-up") if hold.ended == "time_up" else ""


def _has_risen(hold: Hold) -> bool:
    """Tell whether a gauge ever rose: then nobody is told that its air cooled."""
    by_gauge = ([r.psi for r in hold.readings if r.gauge == line] for line in hold.rule.gauges)
    return any(later > earlier for psi in by_gauge for earlier, later in pairwise(psi))


def hold_bounds(result: Assessment, gauge: Gauge, words: Words) -> str:
    """Write the bounds of the rate, with this gauge and this number of readings."""
    step = f"{gauge.step:g} {gauge.unit}"
    return words("hold-bounds", span=span_words(result, words), step=step)


def limit_words(rule: HoldRule, words: Words) -> str:
    """Write the limit that counts and where it is from."""
    source: Text = rule.limit_source
    if rule.limit_provenance not in ("read", source):
        memory = rule.limit_provenance == "memory"
        source = message("source-from-memory" if memory else "source-none", source=source)
    limit = rate_words(rule.limit_psi_per_min, words.units.pressure)
    return words("hold-limit", strict=_yes(not rule.equal_passes), limit=limit, source=source)


def also_words(rule: HoldRule, words: Words) -> str:
    """Write the limits that others publish for this vehicle; empty if there are none."""
    if not rule.also:
        return ""
    also = "; ".join(words.text(each) for each in rule.also)
    return words("hold-also", also=also)


def reading_words(looks: Iterable[HoldReading], gauge: Gauge, words: Words) -> str:
    """Write the readings of one gauge as they were seen: "110 at 0 s, 109 at 30 s"."""
    return words.row(
        words("hold-reading", value=_read(look.psi, gauge.unit), seconds=f"{look.at_s:.3g}")
        for look in looks
    )


def all_readings_words(hold: Hold, words: Words) -> str:
    """Return every reading for the record: "supply 0 s 110 psi, supply 30 s 109 psi"."""
    gauges: Mapping[str, Gauge] = {line: hold.gauge(line) for line in hold.rule.gauges}
    return words.row(_recorded(look, gauges[look.gauge], words) for look in hold.readings)


def _recorded(look: HoldReading, gauge: Gauge, words: Words) -> str:
    reading = words(
        "hold-recorded-crossed" if gauge.crossing else "hold-recorded",
        gauge=gauge_name(look.gauge),
        seconds=f"{look.at_s:g}",
        value=_read(look.psi, gauge.unit),
        unit=gauge.unit,
    )
    if not look.before:
        return reading
    before = words.row(_read(psi, gauge.unit) for psi in look.before)
    return words("hold-recorded-mended", reading=reading, values=before)


def _read(psi: float, unit: PressureUnit) -> str:
    return f"{round(from_psi(psi, unit), 2):g}"


def span_words(result: Assessment, words: Words) -> str:
    """Write between which bounds the loss is: "losing 1.4 to 2.6 psi/min"."""
    unit = words.units.pressure
    low, high = result.low_psi_per_min, result.high_psi_per_min
    if high < 0:
        return words("hold-span-gain", low=_rate(-high, unit), high=rate_words(-low, unit))
    if low > 0:
        return words("hold-span-loss", low=_rate(low, unit), high=rate_words(high, unit))
    seen = float(_rate(result.rate_psi_per_min, unit)) > 0
    return words("hold-span-at-most", seen=_yes(seen), high=rate_words(high, unit))


def rate_words(psi_per_min: float, unit: PressureUnit) -> str:
    """Write a rate without a decimal that says nothing: "2 psi/min", "14 kPa/min"."""
    return f"{_rate(psi_per_min, unit)} {unit}/min"


def _rate_and_limit(rate: float, limit: float, unit: PressureUnit) -> tuple[str, str]:
    """Write a rate and its limit, with enough decimals that unequal ones look unequal."""
    rate = abs(rate)
    for more in range(_MORE_DECIMALS + 1):
        texts = [f"{_rate(each, unit, more)} {unit}/min" for each in (rate, limit)]
        if texts[0] != texts[1] or math.isclose(rate, limit):
            break
    return texts[0], texts[1]


def _rate(psi_per_min: float, unit: PressureUnit, more_decimals: int = 0) -> str:
    decimals = _RATE_DECIMALS[unit] + more_decimals
    return f"{from_psi(psi_per_min, unit):z.{decimals}f}".removesuffix(".0")
