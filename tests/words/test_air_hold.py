"""What is said while an air hold runs, and the words for what it came to."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH
from support.walks import FakeClock, hold_rule, plan, vehicle

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import assess
from walkaround.base.message import Quantity, message
from walkaround.base.units import PSI_KPA, Units
from walkaround.plan.steps import Plan
from walkaround.vehicle.model import Vehicle
from walkaround.words.air_hold import (
    LAST_SECONDS,
    all_readings_words,
    also_words,
    doubt,
    hold_bounds,
    hold_cues,
    hold_ending,
    hold_on,
    hold_result,
    hold_results,
    hold_texts,
    limit_words,
    next_gauge,
    not_clear,
    plain_rule,
    span_words,
)
from walkaround.words.language import Words
from walkaround.words.leak import corrected_text, leak_text
from walkaround.words.pronunciation import pronounced

START = FakeClock()()
ONE = Hold(rule=hold_rule(supply=110.0), began=START)
TWO = Hold(rule=hold_rule(supply=110.0, service=90.0), began=START)
CROSSED = replace(ONE, gauges={"supply": Gauge(name="supply", step=5.0, crossing=True)})
PSI, KPA = ENGLISH, ENGLISH.shown_in(Units("kPa", "mm"))


def read(hold: Hold, *looks: tuple[str, float, float]) -> Hold:
    for gauge, at_s, psi in looks:
        hold = hold.with_reading(gauge, at_s, psi)
    return hold


def ended(hold: Hold, how: str, at_s: float) -> Hold:
    return replace(hold, ended=how, ended_s=at_s)


def every_15_s(psi_per_min: float, until_s: float = 120.0, from_psi: float = 110.0) -> Hold:
    """Readings without error at 0, 30, 60 s and then every 15 s, at this loss."""
    times = [0.0, 30.0, *(60.0 + 15 * n for n in range(int((until_s - 60) // 15) + 1))]
    return read(ONE, *[("supply", at_s, from_psi - psi_per_min * at_s / 60) for at_s in times])


STEADY = ended(read(ONE, ("supply", 0.0, 110.0), ("supply", 60.0, 110.0)), "decided", 60.0)
OVER = ended(every_15_s(8.0), "decided", 120.0)
EARLY = ended(every_15_s(2.0, until_s=75.0), "early", 82.4)
UNDECIDED = ended(every_15_s(2.0, until_s=300.0), "time_up", 300.0)
# Cooling air: 6 psi with a time constant of 20 s, no leak.
COOLING = ended(
    read(ONE, ("supply", 0.0, 110.0), ("supply", 30.0, 105.0), ("supply", 60.0, 104.0)),
    "settling",
    60.0,
)
RISING = ended(
    read(ONE, ("supply", 0.0, 100.0), ("supply", 30.0, 106.0), ("supply", 60.0, 110.0)),
    "settling",
    60.0,
)
MISREAD = ended(
    read(
        ONE,
        *[
            ("supply", at_s, psi)
            for at_s, psi in ((0.0, 110), (30.0, 100), (60.0, 109), (75.0, 109))
        ],
    ),
    "settling",
    75.0,
)
ENDED = [STEADY, OVER, EARLY, UNDECIDED, COOLING, RISING, MISREAD]


def test_the_examples_are_what_they_are_named() -> None:
    verdicts = [hold.results()["supply"].verdict for hold in ENDED]
    assert verdicts == [
        "within",
        "over",
        "undecided",
        "undecided",
        "settling",
        "settling",
        "undecided",
    ]


def test_a_hold_is_led_by_voice_from_start_to_stop() -> None:
    assert hold_cues(ONE, PSI)[:9] == (
        (0.0, "Start. Read the supply gauge."),
        (30.0, "30 seconds. Read the supply gauge."),
        (50.0, "10 seconds."),
        (55.0, "5"),
        (56.0, "4"),
        (57.0, "3"),
        (58.0, "2"),
        (59.0, "1"),
        (60.0, "Stop. Read the supply gauge."),
    )


def test_after_the_minute_every_15_s_asks_for_a_reading_until_five_minutes() -> None:
    after = hold_cues(ONE, PSI)[9:]
    assert [at_s for at_s, _ in after] == [75.0 + 15 * n for n in range(16)]
    assert {text for _, text in after[:-1]} == {"Read the supply gauge."}
    assert after[-1] == (300.0, "Last reading. Read the supply gauge.")


def test_crossings_are_asked_for_once_and_no_reading_at_a_mark() -> None:
    cues = hold_cues(CROSSED, PSI)
    assert cues[0] == (
        0.0,
        "Start. Tap the mark that the needle is on, then each mark as it crosses it.",
    )
    assert not any("Read" in text for _, text in cues)
    assert cues[-1][0] == 60.0


def test_a_needle_beside_a_number_is_asked_for_too() -> None:
    mixed = replace(TWO, gauges={"service": Gauge(name="service", step=5.0, crossing=True)})
    assert hold_cues(mixed, PSI)[0][1].startswith("Start. Read the supply gauge. Tap each mark")


@given(st.floats(0, 60), st.sampled_from([ONE, TWO]))
def test_cues_come_in_order_and_move_with_a_late_start(late_s: float, hold: Hold) -> None:
    late = hold.with_reading(hold.rule.gauges[-1], late_s, 100.0)
    cues = hold_cues(late, PSI)
    times = [at_s for at_s, _ in cues]
    assert times == sorted(times)
    assert late.end_s in times
    assert times[-1] == pytest.approx(late.last_s)
    assert len([word for _, word in cues if word.isdigit()]) == LAST_SECONDS


def test_the_second_gauge_is_asked_for_after_the_first() -> None:
    assert next_gauge("service", PSI) == "Now the service gauge."
    assert next_gauge("service", PSI) in hold_texts(TWO, PSI)


@pytest.mark.parametrize("hold", [ONE, TWO, CROSSED])
def test_what_is_said_at_its_marks_is_rendered_ahead(hold: Hold) -> None:
    assert {text for _, text in hold_cues(hold, PSI)} <= set(hold_texts(hold, PSI))


@pytest.mark.parametrize(
    ("hold", "words", "said"),
    [
        (STEADY, PSI, "Supply gauge lost 0 psi/min. Within the limit of 2 psi/min."),
        (OVER, PSI, "Supply gauge lost 8 psi/min. Over the limit of 2 psi/min."),
        # 8 and 2 psi/min are 55.2 and 13.8 kPa/min: NIST SP 811 (2008), B.8.
        (OVER, KPA, "Supply gauge lost 55 kPa/min. Over the limit of 14 kPa/min."),
        (
            EARLY,
            PSI,
            "Supply gauge: undecided, between 1.1 and 2.9, and the limit is 2. "
            "By the plain rule it lost 2 psi/min: within the limit of 2 psi/min.",
        ),
        (COOLING, PSI, "Supply gauge: the air is still settling."),
    ],
)
def test_a_result_tells_rate_and_limit(hold: Hold, words: Words, said: str) -> None:
    assert hold_result("supply", hold.results()["supply"], hold, words) == said


@pytest.mark.parametrize(
    ("drop_psi", "said"),
    [
        (2.0, "Plain rule: lost 2 psi/min, within."),
        (2.5, "Plain rule: lost 2.5 psi/min, over."),
        (2.04, "Plain rule: lost 2.04 psi/min, over."),  # not "2.0, over" of a limit of 2
        (0.0, "Plain rule: lost 0 psi/min, within."),
        (-1.0, "Plain rule: gained 1 psi/min, within."),
    ],
)
def test_the_plain_rule_result_never_looks_like_the_other_side_of_the_limit(
    drop_psi: float, said: str
) -> None:
    found = assess([(0, 110), (60, 110 - drop_psi)], 2.0)
    assert plain_rule(found, 2.0, PSI) == said


def test_each_gauge_has_its_sentence() -> None:
    hold = read(
        TWO,
        *[("supply", s, 110.0) for s in (0.0, 30.0, 60.0)],
        *[("service", s, 90.0) for s in (0.0, 30.0, 60.0)],
    )
    assert hold_results(ended(hold, "decided", 60.0), PSI) == (
        "Supply gauge lost 0 psi/min. Within the limit of 2 psi/min. "
        "Service gauge lost 0 psi/min. Within the limit of 2 psi/min."
    )


@pytest.mark.parametrize(
    ("hold", "told"),
    [
        (STEADY, ""),
        (EARLY, "Ended early at 82 seconds: the plain rule result stands."),
        (UNDECIDED, "Five minutes did not decide it, so the plain rule result stands."),
        (ONE, ""),
    ],
)
def test_how_a_hold_ended_is_told_where_the_verdict_does_not(hold: Hold, told: str) -> None:
    assert hold_ending(hold, PSI) == told
    assert hold_results(hold, PSI).endswith(told)


def test_settling_air_says_what_to_do_and_why() -> None:
    for hold, why, then in (
        (COOLING, "It cooled: ", "charge up to the set pressure, then start again."),
        (RISING, "pressure rose", "top up to the set pressure, then hold again."),
        (MISREAD, "such a reading", "harge up to the set pressure, then start again."),
    ):
        assert why in hold_ending(hold, PSI)
        assert hold_ending(hold, PSI).endswith(then)


def test_bounds_name_the_gauge_they_hold_for() -> None:
    found = EARLY.results()["supply"]
    told = hold_bounds(found, Gauge(name="supply", unit="kPa", step=10.0), KPA)
    assert told.endswith("kPa/min, on a gauge with marks every 10 kPa.")
    low, high = (float(n) for n in re.findall(r"(-?\d+) to (-?\d+)", told)[0])
    assert low == pytest.approx(found.low_psi_per_min * PSI_KPA, abs=0.5)
    assert high == pytest.approx(found.high_psi_per_min * PSI_KPA, abs=0.5)


def test_an_undecided_minute_tells_between_which_rates_it_still_is() -> None:
    hold = every_15_s(2.0, until_s=60.0)
    told = not_clear(hold, hold.results(), PSI)
    assert re.fullmatch(r"Not clear yet: between 0\.\d and 3\.\d, and the limit is 2\.", told)
    assert hold_on(hold, hold.results(), 75.0, PSI) == f"{told} Read at 75 seconds."
    both = read(hold, *[("service", look.at_s, look.psi - 20) for look in hold.readings])
    both = replace(both, rule=TWO.rule)
    assert "Supply between 0." in not_clear(both, both.results(), PSI)
    assert "Service between 0." in not_clear(both, both.results(), PSI)


def test_a_fall_that_cooling_could_explain_says_so_instead_of_contradicting_the_limit() -> None:
    hold = read(ONE, ("supply", 0.0, 110.0), ("supply", 30.0, 107.0), ("supply", 60.0, 106.0))
    found = hold.results()
    assert found["supply"].low_psi_per_min > 2.0
    told = not_clear(hold, found, PSI)
    assert told == "Not clear yet: losing 4, could still be cooling."


@pytest.mark.parametrize(
    ("looks", "said"),
    [
        ([(0, 110), (30, 109)], "too few readings."),
        ([(0, 110), (30, 105), (60, 100)], "losing 10, could still be cooling."),
        ([(0, 110), (30, 109), (60, 108)], "between 0.8 and 3.2, and the limit is 2."),
        ([(0, 110), (30, 100), (60, 109)], "one reading does not fit the others."),
        ([(0, 110), (30, 10.9), (60, 109)], "10.9 at 30 s does not fit: misread?"),
        ([(0, 110), (30, 100), (60, 109), (75, 109)], "100 at 30 s does not fit: misread?"),
        ([(0, 110), (30, 110), (60, 110)], ""),
        ([(0, 110), (30, 103), (60, 101), (75, 101), (90, 101)], ""),
        (
            [(0, 110), (30, 106), (60, 112), (75, 100), (90, 98), (105, 96), (120, 94)],
            "112 at 60 s does not fit: misread?",
        ),
    ],
)
def test_what_is_in_doubt_says_why(looks: list[tuple[float, float]], said: str) -> None:
    assert doubt(assess(looks, 2.0), 2.0, "psi", PSI) == said


def test_what_may_have_been_gained_is_told_as_no_loss() -> None:
    # Read to the nearest psi, twice the same: 1.2 psi/min either way.
    still = assess([(0, 110), (30, 110), (60, 110)], 1.0)
    assert still.low_psi_per_min < 0
    assert doubt(still, 1.0, "psi", PSI) == "between 0 and 1.2, and the limit is 1."


def test_a_reading_that_does_not_fit_is_named_in_its_gauges_unit_and_rates_in_the_readers() -> None:
    kpa = [(at_s, shown / PSI_KPA) for at_s, shown in ((0, 760), (30, 76), (60, 760))]
    assert doubt(assess(kpa, 2.0), 2.0, "kPa", PSI) == "76 at 30 s does not fit: misread?"
    between = assess([(0, 110), (30, 109), (60, 108)], 2.0)
    # 0.81 and 3.19 psi/min of a limit of 2: 6, 22 and 14 kPa/min.
    assert doubt(between, 2.0, "psi", KPA) == "between 6 and 22, and the limit is 14."


def test_a_hold_with_a_reading_that_does_not_fit_has_no_result() -> None:
    assert hold_result("supply", MISREAD.results()["supply"], MISREAD, PSI) == (
        "Supply gauge: no result. 100 at 30 s does not fit: misread?"
    )
    looks = (
        (0.0, 110),
        (30.0, 106),
        (60.0, 112),
        (75.0, 100),
        (90.0, 98),
        (105.0, 96),
        (120.0, 94),
    )
    over = ended(read(ONE, *[("supply", at_s, psi) for at_s, psi in looks]), "decided", 120.0)
    assert hold_result("supply", over.results()["supply"], over, PSI).endswith(
        "Over the limit of 2 psi/min. 112 at 60 s does not fit: misread?"
    )


@pytest.mark.parametrize(
    ("looks", "said"),
    [
        ([(0, 110), (30, 110), (60, 110)], "no leak measurable; at most 1.2 psi/min"),
        ([(0, 110), (30, 110), (60, 109)], "losing at most 2.2 psi/min"),
        ([(0, 110), (30, 106), (60, 102)], "losing 6.7 to 9.3 psi/min"),
        ([(0, 100), (30, 104), (60, 108)], "gaining 6.7 to 9.3 psi/min"),
    ],
)
def test_bounds_are_told_as_what_is_lost(looks: list[tuple[float, float]], said: str) -> None:
    """8 psi/min: 2.2 standard errors of 0.57 psi/min."""
    assert span_words(assess(looks, 2.0), PSI) == said


def test_the_limit_names_its_source_and_what_else_is_published() -> None:
    most = Quantity(value=3, unit="psi_per_min")
    also = (message("limit-at-most", most=most, source="49 CFR 570.57"),)
    rule = ONE.rule.model_copy(update={"also": also})
    assert limit_words(rule, PSI) == "Limit at most 2 psi/min: invented (from memory)."
    assert also_words(rule, PSI) == "Also published: at most 3 psi/min: 49 CFR 570.57."
    assert also_words(rule, KPA) == "Also published: at most 21 kPa/min: 49 CFR 570.57."
    assert also_words(ONE.rule, PSI) == ""
    strict = rule.model_copy(update={"equal_passes": False})
    assert limit_words(strict, PSI).startswith("Limit less than 2 psi/min")


def trapped(hold: Hold, litres: float = 60.0) -> Hold:
    return replace(hold, rule=hold.rule.model_copy(update={"trapped_l": litres}))


def coupled(air: str = "shop") -> Plan:
    return plan(vehicle=vehicle()).model_copy(update={"air": air})


def test_a_leak_is_told_in_plain_terms_only_where_the_volume_is_known() -> None:
    assert leak_text(OVER, coupled(), PSI, 0.0) == ""
    told = leak_text(trapped(OVER), coupled(), PSI, 0.0)
    # 60 L losing 8 psi/min: 60 * 8 / 14.696 = 32.7 L/min of air at one atmosphere (14.696 psi,
    # NIST SP 811), by hand from Boyle's law; a cubic foot has 28.317 L.
    assert "About 1.2 scfm" in told
    assert "hole" in told
    assert "spring brakes" in told
    assert "low-pressure warning" not in told
    assert "low-pressure warning" in leak_text(trapped(OVER), coupled("coupled"), PSI, 0.0)
    assert "too small" in leak_text(trapped(STEADY), coupled(), PSI, 0.0)
    assert leak_text(trapped(COOLING), coupled(), PSI, 0.0) == ""


@pytest.mark.parametrize(
    ("hold", "litres"),
    [
        (ended(read(ONE, ("supply", 0.0, 110.0), ("supply", 60.0, 0.0)), "decided", 60.0), 60.0),
        (OVER, 48_000.0),
    ],
)
def test_a_leak_beyond_telling_says_so_and_keeps_nobody_from_an_answer(
    hold: Hold, litres: float
) -> None:
    """A supply line that was empty after its minute left a screen that could not be drawn."""
    told = leak_text(trapped(hold, litres), coupled("coupled"), PSI, 0.0)
    assert told == "How large the leak is cannot be told from these readings."


def test_a_vehicle_without_spring_brakes_is_told_of_none() -> None:
    bare: Vehicle = vehicle()
    axles = tuple(axle.model_copy(update={"spring": False}) for axle in bare.brakes.axles)
    brakes = bare.brakes.model_copy(update={"axles": axles})
    walked = coupled().model_copy(update={"vehicle": bare.model_copy(update={"brakes": brakes})})
    assert "spring brakes" not in leak_text(trapped(OVER), walked, PSI, 0.0)


def test_a_corrected_rate_is_information_and_follows_gay_lussac() -> None:
    told = corrected_text(OVER, (20.0, 17.0), PSI, 0.0)
    # (110 + 14.696) psi * 3 K / 293.15 K over 2 min is 0.64 psi/min of cooling: by hand.
    assert "supply 7.4 psi/min" in told
    assert told.startswith("Air 68 °F at the start, 63 °F at the end.")
    assert told.endswith("For information; the verdict stays.")


def test_readings_are_recorded_in_the_unit_of_their_gauge() -> None:
    kpa = Gauge(name="supply", unit="kPa", step=10.0)
    hold = replace(ONE, gauges={"supply": kpa})
    hold = read(hold, ("supply", 0.0, 760 / PSI_KPA), ("supply", 30.0, 750 / PSI_KPA))
    assert all_readings_words(hold, PSI) == "supply 0 s 760 kPa, supply 30 s 750 kPa"
    assert (
        all_readings_words(read(CROSSED, ("supply", 2.25, 110.0)), PSI)
        == "supply 2.25 s 110 psi crossed"
    )


@pytest.mark.parametrize("words", [PSI, KPA, ENGLISH.shown_in(Units("bar", "mm"))])
@pytest.mark.parametrize("hold", ENDED)
def test_every_text_can_be_said(hold: Hold, words: Words) -> None:
    found = hold.results()["supply"]
    texts = [
        *hold_texts(hold, PSI),
        hold_results(hold, words),
        hold_bounds(found, hold.gauge("supply"), words),
        plain_rule(found, hold.rule.limit_psi_per_min, words),
        limit_words(hold.rule, words),
        leak_text(trapped(hold), coupled("coupled"), words, 0.0),
        corrected_text(hold, (20.0, -5.0), words, 1500.0),
        not_clear(hold, hold.results(), words),
    ]
    for text in texts:
        said = pronounced(text)
        assert not re.search(r"[\d/°%()]|psi|kPa", said), said
        assert not re.search(r"\b[Ss]afe\b|  |None|\.\.", text), text
