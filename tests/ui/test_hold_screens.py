"""An air hold on the screen in each of its states, on the test's clock."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft
import flet.canvas as cv
import pytest
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen
from support.screens_holding import at_the_hold, hold_of, hold_through, read, start, tap, walk_of
from support.walks import hold_rule

from walkaround.airhold.gauge import Gauge
from walkaround.base.units import PSI_KPA
from walkaround.words.air_hold import all_readings_words

TALL, WIDE = 1.43, 0.5
"""Height of a line in sizes, as Material 3 has it for body text; mean width of a character."""
PSI = Gauge(name="supply")
KPA = Gauge(name="supply", unit="kPa", step=10.0)
COARSE = Gauge(name="supply", step=5.0, crossing=True)
ONE, BOTH = hold_rule(supply=110.0), hold_rule(supply=110.0, service=90.0)


def drawn_words(screen: Screen) -> list[str]:
    """The words on the canvases."""
    return [shape.value for shape in screen.controls(cv.Text)]


def is_within(screen: Screen) -> bool:
    return any(text.startswith("Within limit: ") for text in screen.texts())


async def test_a_clear_minute_ends_by_itself_with_its_verdict_and_bounds(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 110, 110])
        assert hold_of(depot, walk_id).ended == "decided"
        assert "Within limit: 0 (max 2)" in screen.texts()
        assert "Plain rule: lost 0 psi/min, within." in screen.texts()
        assert any(text.startswith("No leak measurable; at most 1.2") for text in screen.texts())
        assert any(text.startswith("Limit at most 2 psi/min: invented") for text in screen.texts())
        assert depot.voice.said[-1] == (
            "Supply gauge lost 0 psi/min. Within the limit of 2 psi/min."
        )
        await tap(depot, screen, walk_id, "ok")
    assert walk_of(depot, walk_id).answers["supply_hold"].answer == "ok"


async def test_numbers_to_tap_and_the_clock_fit_their_places_at_twice_the_text(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        [measure] = [text for text in screen.controls(ft.Text) if text.size == 100]
        await screen.fire(measure, "size_change", {"w": 1.0, "h": 200.0})
        await start(depot, screen, walk_id)
        await screen.until(lambda: screen.has("read_110"))
        ring = screen.controls(ft.ProgressRing)[0]
        assert 2 * TALL * screen.find("seconds_left").size < ring.height
        for key in ("read_110", "higher", "lower"):
            button = screen.find(key)
            assert 2 * TALL * button.content.size < button.height
            assert 2 * WIDE * button.content.size * len(button.content.value) < 412 / 3


async def test_a_hold_over_its_limit_offers_no_ok_and_opens_a_defect(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 106, 102, 100, 98, 96, 94])
        assert "Over the limit: 8 (max 2)" in screen.texts()
        assert not screen.has("ok")
        assert "lost 8 psi/min. Over the limit of 2 psi/min." in depot.voice.said[-1]
        await screen.click("defect")
        await screen.until(lambda: "1 open defect" in screen.texts())


async def test_an_undecided_minute_goes_on_and_says_when_to_read_again(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 109, 108])
        assert walk_of(depot, walk_id).phase == "holding"
        why = "Not clear yet: between 0.8 and 3.2, and the limit is 2."
        assert f"{why} Read at 75 seconds." in depot.voice.said
        assert any(text.startswith(why) for text in screen.texts())
        assert "to the next reading" in screen.texts()
        assert screen.find("seconds_left").value == "15"
        depot.clock.wait(15)
        await screen.until(lambda: depot.voice.said[-1] == "Read the supply gauge.")
        await read(depot, screen, walk_id, 108)
        assert hold_of(depot, walk_id).readings[-1].at_s == 75.0


async def test_ended_early_the_plain_rule_stands_and_the_record_says_so(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        assert screen.has("stop_hold")
        assert not screen.has("end_early")
        for psi in (109, 108):
            depot.clock.wait(30)
            await read(depot, screen, walk_id, psi)
        await tap(depot, screen, walk_id, "end_early")
        assert hold_of(depot, walk_id).ended == "early"
        assert "Undecided" in screen.texts()
        assert "Ended early at 60 seconds: the plain rule result stands." in screen.texts()
        assert "Plain rule: lost 2 psi/min, within." in screen.texts()
        assert screen.has("ok")


async def test_after_five_minutes_the_plain_rule_result_stands_marked_undecided(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    # 2 psi/min on a gauge read to the psi.
    readings = [110, 109, 108, *(round(108 - 0.5 * n) for n in range(1, 17))]
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, readings)
        assert hold_of(depot, walk_id).ended == "time_up"
        assert "Undecided" in screen.texts()
        assert any(text.startswith("Five minutes did not decide it") for text in screen.texts())
        assert screen.has("ok")


async def test_settling_air_offers_nothing_but_another_hold(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 105, 104])
        assert hold_of(depot, walk_id).ended == "settling"
        assert "Settling" in screen.texts()
        assert any("Wait two minutes, charge up" in text for text in screen.texts())
        assert not screen.has("ok")
        assert not screen.has("defect")
        await start(depot, screen, walk_id)
        assert hold_of(depot, walk_id).running


async def test_a_reading_that_does_not_fit_is_named_and_nothing_but_another_hold_offered(
    depot: App,
) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        depot.clock.wait(30)
        await screen.until(lambda: screen.has("lower"))
        await screen.click("lower")
        await screen.click("read_100")
        await tap(depot, screen, walk_id, "jump_read")
        depot.clock.wait(30)
        await screen.until(lambda: screen.has("higher"))
        await screen.click("higher")
        await screen.click("read_108")
        await tap(depot, screen, walk_id, "jump_read")
        why = "Not clear yet: one reading does not fit the others."
        assert depot.voice.said[-1] == f"{why} Read at 75 seconds."
        assert screen.has("stop_hold")
        assert not screen.has("end_early")
        depot.clock.wait(15)
        await read(depot, screen, walk_id, 108)
        assert hold_of(depot, walk_id).ended == "settling"
        assert "Undecided" in screen.texts()
        assert "100 at 30 s does not fit: misread?" in screen.texts()
        assert "100 at 30 s does not fit: misread?" in depot.voice.said[-1]
        assert not screen.has("ok")
        assert not screen.has("defect")
        await start(depot, screen, walk_id)
        assert hold_of(depot, walk_id).running


async def test_a_hold_speaks_its_marks_and_shows_the_seconds_to_the_next_reading(
    depot: App,
) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await screen.until(lambda: "Start. Read the supply gauge." in depot.voice.said)
        await read(depot, screen, walk_id, 110)
        for seconds, words in ((30, "30 seconds. Read"), (20, "10 seconds."), (5, "5"), (1, "4")):
            depot.clock.wait(seconds)
            await screen.until(lambda words=words: depot.voice.said[-1].startswith(words))
        assert "6" not in depot.voice.said
        await screen.until(lambda: screen.find("seconds_left").value == "4")
        assert "4 seconds to the next reading" in screen.names()
        assert "56 s since the start" in screen.texts()


async def test_the_clock_of_a_hold_is_said_once(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, "110")
        inside = [
            each
            for each in screen.controls(ft.Semantics)
            if each.exclude_semantics
            and screen.find("seconds_left") in each.content.controls[1].controls
        ]
        assert [each.label for each in inside] == ["30 seconds to the next reading"]
        assert [each.value for each in inside] == [None]


async def test_a_page_that_comes_back_in_a_hold_shows_the_true_time(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
    depot.clock.wait(17)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.until(lambda: screen.find("seconds_left").value == "13")


@pytest.mark.parametrize(("what", "word"), [("boot", "restarted"), ("sleep", "slept")])
async def test_a_reboot_or_a_sleep_voids_the_hold_and_says_so(
    depot: App, what: str, word: str
) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        if what == "boot":
            depot.clock.boot = "boot_b"
        else:
            depot.clock.asleep_s += 600
        await screen.until(lambda: any(word in text for text in screen.texts()))
        assert walk_of(depot, walk_id).phase == "stepping"
        assert screen.has("start_hold")


async def test_a_stopped_hold_is_void_and_can_be_held_again(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        await tap(depot, screen, walk_id, "stop_hold")
        assert ENGLISH("hold-void-stopped") in screen.texts()
        assert "Hold again" in screen.texts()


@pytest.mark.parametrize(("key", "psi"), [("jump_meant", 109), ("jump_read", 99)])
async def test_a_number_far_from_the_last_one_is_asked_about_and_counts_from_its_first_tap(
    depot: App, key: str, psi: int
) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        depot.clock.wait(30)
        await screen.until(lambda: screen.has("lower"))
        await screen.click("lower")
        await screen.click("read_99")
        await screen.until(lambda: "109, not 99?" in screen.texts())
        assert len(hold_of(depot, walk_id).readings) == 1
        assert screen.has("stop_hold")
        depot.clock.wait(12)
        await tap(depot, screen, walk_id, key)
        last = hold_of(depot, walk_id).readings[-1]
        assert (last.psi, last.at_s) == (psi, 30.0)


async def test_a_reading_is_tapped_to_mend_it_and_the_hold_is_as_long_as_before(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        for wait_s, psi in ((0, 110), (30, 107)):
            depot.clock.wait(wait_s)
            await read(depot, screen, walk_id, psi)
        marks_s = hold_of(depot, walk_id).marks_s()
        await screen.until(lambda: screen.has("mend_supply_30"))
        await screen.click("mend_supply_30")
        await screen.until(lambda: screen.has("close_mending"))
        assert screen.has("stop_hold")
        await tap(depot, screen, walk_id, "read_110")
        assert depot.voice.said[-1] == "110 at 30 s"
        await screen.until(lambda: not screen.has("close_mending"))
        hold = hold_of(depot, walk_id)
        assert [(look.at_s, look.psi) for look in hold.readings] == [(0.0, 110.0), (30.0, 110.0)]
        assert hold.marks_s() == marks_s
        depot.clock.wait(30)
        await read(depot, screen, walk_id, 110)
        assert hold_of(depot, walk_id).ended == "decided"
        told = all_readings_words(hold_of(depot, walk_id), ENGLISH)
        assert "supply 30 s 110 psi (entered as 107 at first)" in told


async def test_the_reading_that_is_due_comes_before_the_one_being_mended(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        await screen.until(lambda: screen.has("mend_supply_0"))
        await screen.click("mend_supply_0")
        await screen.until(lambda: screen.has("close_mending"))
        depot.clock.wait(30)
        await screen.until(lambda: not screen.has("close_mending"))
        await read(depot, screen, walk_id, 109)
        assert [look.psi for look in hold_of(depot, walk_id).readings] == [110, 109]
        await screen.until(lambda: screen.has("close_mending"))


async def test_a_mended_reading_that_decides_ends_the_hold(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        for wait_s, psi in ((0, 110), (30, 110), (30, 107)):
            depot.clock.wait(wait_s)
            await read(depot, screen, walk_id, psi)
        assert hold_of(depot, walk_id).running
        await screen.click("mend_supply_60")
        await tap(depot, screen, walk_id, "read_110")
        assert hold_of(depot, walk_id).ended == "decided"
        assert is_within(screen)


async def test_a_mark_tapped_by_mistake_is_taken_back(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": COARSE})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await tap(depot, screen, walk_id, "cross_supply_110")
        depot.clock.wait(5)
        await tap(depot, screen, walk_id, "cross_supply_105")
        await screen.until(lambda: screen.has("mend_supply_5"))
        assert not screen.has("mend_supply_0")
        await screen.click("mend_supply_5")
        await tap(depot, screen, walk_id, "not_crossed")
        assert [look.psi for look in hold_of(depot, walk_id).readings] == [110]


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (("read_110", "read_106", "read_107"), "the air is still settling. It fell and rose"),
        (("read_108", "read_107", "higher", "read_110", "jump_read"), "the pressure rose. "),
    ],
)
async def test_a_rise_is_never_called_cooling(depot: App, keys: Sequence[str], said: str) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        for key in keys:
            await screen.until(lambda key=key: screen.has(key))
            await screen.click(key)
            await screen.settle()
            if screen.has("stop_hold") and not screen.has("lower") and not screen.has("jump"):
                depot.clock.wait(30)
        await screen.until(lambda: hold_of(depot, walk_id).ended == "settling")
        assert said in depot.voice.said[-1]
        assert "cool" not in " ".join([*screen.texts(), depot.voice.said[-1]])


async def test_a_gauge_in_kpa_is_read_by_its_own_marks_and_stored_in_both(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": KPA})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        assert "Supply gauge, kPa" in screen.texts()
        await read(depot, screen, walk_id, 760)
        event = walk_of(depot, walk_id).events[-1].model_dump()
        assert (event["shown"], event["unit"]) == (760.0, "kPa")
        assert event["psi"] == pytest.approx(760 / PSI_KPA)
        assert "760 at 0 s" in screen.texts()


async def test_results_are_in_the_units_of_the_settings(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    depot.parts.store.change_settings({"pressure": "kPa"})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 109, 108])
        assert any(
            t.startswith("Not clear yet: between 6 and 22, and the limit is 14.")
            for t in screen.texts()
        )
        await tap(depot, screen, walk_id, "end_early")
        assert "Plain rule: lost 14 kPa/min, within." in screen.texts()


async def test_two_gauges_are_read_in_turn_and_each_has_its_chart_and_result(depot: App) -> None:
    gauges = {"supply": PSI, "service": Gauge(name="service")}
    walk_id = at_the_hold(depot, BOTH, gauges)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        for mark in (0, 30, 30):
            depot.clock.wait(mark)
            await read(depot, screen, walk_id, 110)
            assert depot.voice.said[-1] == "Now the service gauge."
            await read(depot, screen, walk_id, 90)
        assert screen.has("result_supply")
        assert screen.has("result_service")
        assert {"supply, psi", "service, psi"} <= set(drawn_words(screen))


async def test_the_gauge_that_leaks_comes_first(depot: App) -> None:
    gauges = {"supply": PSI, "service": Gauge(name="service")}
    walk_id = at_the_hold(depot, BOTH, gauges)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        for mark, service in ((0, 90), (30, 86), (30, 82), (15, 80), (15, 78), (15, 76), (15, 74)):
            if walk_of(depot, walk_id).phase != "holding":
                break
            depot.clock.wait(mark)
            await read(depot, screen, walk_id, 110, service)
        texts = screen.texts()
        assert texts.index("Service gauge") < texts.index("Supply gauge")
        over, within = (
            next(at for at, text in enumerate(texts) if text.startswith(verdict))
            for verdict in ("Over the limit: ", "Within limit: ")
        )
        assert over < within


async def test_a_coarse_gauge_is_tapped_as_its_needle_crosses_and_ends_by_itself(
    depot: App,
) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": COARSE})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        assert not screen.has("read_110")
        assert {"115", "110", "105"} <= set(screen.texts())
        depot.clock.wait(2.25)
        await tap(depot, screen, walk_id, "cross_supply_110")
        assert hold_of(depot, walk_id).readings[0].at_s == 2.25
        assert screen.has("cross_supply_105")
        assert not screen.has("cross_supply_110")
        depot.clock.wait(70)
        await screen.until(lambda: screen.has("end_early"))
        # Not one more mark of 5 psi in four minutes: less than the limit of 2 psi/min.
        depot.clock.wait(160)
        await screen.until(lambda: is_within(screen))
        assert hold_of(depot, walk_id).ended == "decided"


async def test_a_needle_of_which_no_mark_was_tapped_says_so_in_the_end(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": COARSE})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        depot.clock.wait(301)
        await screen.until(lambda: any("No mark was tapped" in text for text in screen.texts()))
        assert not screen.has("ok")


async def test_a_crossing_and_a_number_are_asked_for_side_by_side(depot: App) -> None:
    service = Gauge(name="service", step=5.0, crossing=True)
    walk_id = at_the_hold(depot, BOTH, {"supply": PSI, "service": service})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        await tap(depot, screen, walk_id, "cross_service_90")
        looks = hold_of(depot, walk_id).readings
        assert [(look.gauge, look.psi) for look in looks] == [("supply", 110.0), ("service", 90.0)]


async def test_the_chart_names_its_gauge_its_limit_and_a_few_numbers(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await read(depot, screen, walk_id, 110)
        words = drawn_words(screen)
        assert {"limit", "supply, psi", "0 s", "30 s", "60 s", "110"} <= set(words)
        assert "Chart of the supply gauge, psi: 110 at 0 s" in screen.names()


async def test_the_second_half_of_a_double_tap_reads_no_second_gauge(patient: App) -> None:
    gauges = {"supply": PSI, "service": Gauge(name="service")}
    walk_id = at_the_hold(patient, BOTH, gauges)
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        await start(patient, screen, walk_id)
        await screen.until(lambda: screen.has("read_110"))
        patient.clock.wait(1)
        await read(patient, screen, walk_id, 110)
        await screen.click("read_90")
        assert len(hold_of(patient, walk_id).readings) == 1


async def test_the_air_s_temperature_is_told_in_the_degrees_of_who_reads_inches(
    depot: App,
) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 110, 110])
        await screen.click("air_button")
        assert screen.find("start_c").value == "68 °F"
        await screen.click("start_plus_5")
        await screen.click("start_minus_1")
        assert screen.find("start_c").value == "72 °F"
        await tap(depot, screen, walk_id, "save_air")
        air_c = hold_of(depot, walk_id).air_c
        # 4 degrees Fahrenheit are 4 / 1.8 kelvins: NIST SP 811 (2008), B.8.
        assert air_c == (pytest.approx(20 + 4 / 1.8), 20.0)
        assert any("Air 72 °F at the start, 68 °F at the end." in t for t in screen.texts())


async def test_the_air_s_temperature_corrects_the_rate_for_information_only(depot: App) -> None:
    depot.parts.store.change_settings({"length": "mm"})
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 109, 108])
        await tap(depot, screen, walk_id, "end_early")
        await screen.click("air_button")
        await screen.click("start_plus_5")
        await screen.click("end_plus_5")
        await screen.click("end_minus_1")
        assert screen.find("start_c").value == "25 °C"
        assert screen.find("end_c").value == "24 °C"
        # (110 + 14.696) psi * 1 K / 298.15 K in the minute is 0.42 psi: Gay-Lussac, by hand.
        assert any("supply 1.6 psi/min" in text for text in screen.texts())
        await tap(depot, screen, walk_id, "save_air")
        assert hold_of(depot, walk_id).air_c == (25.0, 24.0)
        assert any("supply 1.6 psi/min" in text for text in screen.texts())
        assert "Plain rule: lost 2 psi/min, within." in screen.texts()
        await screen.click("air_button")
        assert screen.find("start_c").value == "25 °C"
        await screen.click("back")
        assert screen.has("ok")


async def test_a_result_looked_back_at_offers_no_other_temperature(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 110, 110])
        await tap(depot, screen, walk_id, "ok")
        await screen.click("back")
        await screen.until(lambda: is_within(screen))
        assert not screen.has("air_button")
        assert not screen.has("again_hold")


async def test_the_leak_is_told_in_plain_terms_where_the_volume_is_known(depot: App) -> None:
    rule = ONE.model_copy(update={"trapped_l": 60.0, "also": ("at most 3 psi/min: 49 CFR 570.57",)})
    walk_id = at_the_hold(depot, rule, {"supply": PSI})
    async with depot.page(f"/walk/{walk_id}", dark=True) as screen:
        await hold_through(depot, screen, walk_id, [110, 106, 102, 100, 98, 96, 94])
        assert any("scfm" in text and "hole" in text for text in screen.texts())
        assert any(text.startswith("Also published: at most 3 psi/min") for text in screen.texts())
