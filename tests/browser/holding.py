"""What a step asks before its answer, done on the phone; the test moves its clock.

Phones speak English unless `words` says otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, repeat

from support.english import ENGLISH
from support.values import TIME_S, good_values, inch_words
from support.walks import FakeClock

from browser.phone import Phone
from walkaround.airhold.verdict import HOLD_MORE_S
from walkaround.plan.steps import Plan, Step
from walkaround.plan.values import Measure
from walkaround.rules.limits import HoldRule
from walkaround.words.air_hold import gauge_name
from walkaround.words.language import Words, capital

WAITS_S = (0.0, 30.0, 30.0)
"""From one reading to the next in the minute; after it they are `HOLD_MORE_S` apart."""


def perform(phone: Phone, clock: FakeClock, plan: Plan, step: Step, words: Words = ENGLISH) -> None:
    """Do what a step asks, so that all that is left is to say that it is right."""
    if step.hold:
        hold_a_minute(phone, clock, step.hold, words=words)
    elif step.measure:
        measure(phone, clock, step.measure, words)
    elif step.wait:
        clock.wait(step.wait.seconds)
    elif step.kind == "gauges":
        tell_gauges(phone, plan, words)
    elif step.kind == "chambers":
        phone.read_on(words("chambers-marked"))


def read(phone: Phone, psi: int) -> None:
    """Enter a gauge's reading and wait until it is in."""
    phone.answer(str(psi))
    phone.gone(str(psi))


def hold_a_minute(
    phone: Phone,
    clock: FakeClock,
    rule: HoldRule,
    lost: Sequence[int] = (0, 0, 0),
    words: Words = ENGLISH,
) -> None:
    """Start the minute and read every gauge at 0, 30 and 60 s, then every 15 s.

    `lost` is psi lost at each reading; nothing lost in the minute is clearly within any limit.
    """
    phone.answer(words("hold-start"))
    for wait_s, psi_lost in zip(chain(WAITS_S, repeat(HOLD_MORE_S)), lost, strict=False):
        clock.wait(wait_s)
        for line, psi in rule.set_psi.items():
            # Two gauges may show the same.
            asked = words("gauge-in-unit", gauge=gauge_name(line), unit="psi")
            phone.sees(asked)
            phone.answer(f"{round(psi - psi_lost)}")
            phone.no_longer(asked)


def tell_gauges(phone: Phone, plan: Plan, words: Words = ENGLISH) -> None:
    """Every gauge is read to 1 psi."""
    phone.read_on("1")
    for line in plan.gauges:
        asked = words("gauge-dial-in", gauge=gauge_name(line))
        phone.sees(asked)
        phone.tap("1")
        phone.no_longer(asked)


def measure(phone: Phone, clock: FakeClock, asked: Measure, words: Words = ENGLISH) -> None:
    """Enter a value within its bounds for each that is asked, two taps each."""
    for value, amount in good_values(asked):
        if asked.quantity == "s":
            begin = words.text(asked.begin) or words("time-start")
            end = words.text(asked.end) or words("time-stop")
            phone.answer(begin)
            phone.stays(end)
            clock.wait(TIME_S)
            phone.answer(end)
            phone.gone(end)
            continue
        if asked.quantity == "in":
            coarse, fine = inch_words(amount)
        else:
            coarse, fine = str(int(amount // 10 * 10)), str(int(amount))
        phone.sees(capital(words.text(value.name)))
        enter(phone, coarse, fine, words)


def enter(phone: Phone, coarse: str, fine: str, words: Words = ENGLISH) -> None:
    """One value, two taps: the pages of keys follow each other."""
    phone.answer(coarse)
    phone.stays(words("keypad-other-keys"))
    phone.answer(fine)
    phone.gone(words("keypad-other-keys"))
