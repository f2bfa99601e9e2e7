"""Logs of air holds as spreadsheets and recorders write them, and as nobody should.

Commas inside quotes and line ends: RFC 4180.
"""

from __future__ import annotations

from contextlib import suppress

import pint
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from walkaround.airhold.readings import (
    argument_problems,
    crossing_problems,
    log_of,
    reading_problems,
)
from walkaround.base.errors import InputError

READINGS = ((0.0, 110.0), (30.0, 109.5), (60.0, 108.0))


def told(data: bytes) -> str:
    """The one sentence that names what is wrong with a log."""
    with pytest.raises(InputError) as caught:
        log_of(data, "hold.csv")
    sentence = str(caught.value)
    assert sentence.startswith("hold.csv")
    assert sentence.endswith(".")
    assert "\n" not in sentence
    return sentence


@pytest.mark.parametrize(
    "text",
    [
        "seconds,psi\n0,110\n30,109.5\n60,108\n",
        "seconds,psi\r\n0,110\r\n30,109.5\r\n60,108",
        "seconds,psi\r0,110\r30,109.5\r60,108\r",
        "\ufeffseconds,psi\n0,110\n30,109.5\n60,108\n",
        "Seconds, PSI\n0, 110\n 30 ,109.5\n60,108\n",
        "seconds;psi\n0;110\n30;109,5\n60;108,0\n",
        "seconds\tpsi\n0\t110\n30\t109,5\n60\t108\n",
        '"seconds","psi"\n"0","110"\n"30","109,5"\n"60","108"\n',
        "gauge,psi,note,seconds\nsupply,110,a,0\nsupply,109.5,,30\nsupply,108,\"b,c\",60\n",
        "\n# supply gauge\n\nseconds,psi\n0,110\n\n  \n,,\n30,109.5\n# half\n60,108\n\n",
        "seconds,psi\n0.0,1.1e2\n3e1,109.50\n+60,108.\n",
        "seconds,psi\n0,110,\n30,109.5,\n60,108,,\n",
    ],
)  # fmt: skip
def test_the_same_readings_are_read_however_they_are_written(text: str) -> None:
    assert log_of(text.encode(), "hold.csv") == (READINGS, "psi")


def test_a_spreadsheets_unicode_text_and_odd_characters_elsewhere_are_read() -> None:
    text = "seconds\tpsi\r\n0\t110\r\n30\t109,5\r\n60\t108\r\n"
    assert log_of(text.encode("utf-16"), "hold.csv").readings == READINGS
    text = "seconds,psi,note\n0,110,gr\xfcn\n30,109.5,\n60,108,\n"
    assert log_of(text.encode("latin-1"), "hold.csv").readings == READINGS


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "",
            "hold.csv: holds nothing; write a line seconds,psi (or kPa, or bar) and the readings.",
        ),
        ("# no more\n\n", "holds nothing"),
        ("0,110\n60,108\n", "line 1: has no column seconds; name the columns in the first line"),
        ("seconds,Pa\n0,7.5\n", "line 1: has no column psi, kpa, or bar;"),
        ("seconds,psi,bar\n0,110,7.6\n", "line 1: has 2 columns psi and bar;"),
        ("\nseconds,psi,psi\n0,1,2\n", "line 2: has 2 columns psi"),
        ("seconds,psi\n", "hold.csv: only 0 given; take at least 2."),
        ("seconds,psi\n0,110\n", "only 1 given"),
        ("seconds,psi\n0,110\n30,109,5\n", "line 3: has 3 values for 2 columns; part columns"),
        ("seconds,psi\n0,110\n30\n", "line 3: psi is ''; write a plain number."),
        ("seconds,psi\n0,110\n30,lots\n", "line 3: psi is 'lots'"),
        ("seconds,psi\nsoon,110\n", "line 2: seconds is 'soon'"),
        ("seconds,psi\n0,nan\n30,109\n", "line 2: psi is 'nan'"),
        ("seconds,psi\n0,110\n30,1_0\n", "line 3: psi is '1_0'"),
        ("seconds,psi\n0,110\n30,\u0661\n", "line 3: psi is '\\u0661'"),
        (
            "seconds,psi\n0,110\n30,1e999\n",
            "line 3, psi: inf psi is no gauge pressure; 0 to",
        ),
        ("seconds,psi\n\n0,110\n# x\n30,-4\n", "line 5, psi: -4 psi is no gauge pressure"),
        (
            "seconds,kPa\n0,760\n30,7600\n",
            "line 3, kPa: 7600 kPa is no gauge pressure; 0 to 2068 kPa",
        ),
        ("seconds,psi\n0,110\n0,109\n", "line 3, seconds: its time does not rise"),
        ("seconds,psi\n30,110\n0,109\n", "line 3, seconds: its time does not rise"),
        ("seconds,psi\n0,110\n99999,109\n", "line 3, seconds: 99999 s is no time in a hold"),
        ("seconds,psi\n0," + "9" * 200_000, "line 2: field larger than field limit"),
        (
            "seconds,psi\n" + "0,1\n" * 10_001,
            "holds more than 10000 readings; leave out the others.",
        ),
    ],
)
def test_what_is_wrong_is_told_with_its_line(text: str, said: str) -> None:
    assert said in told(text.encode())


def test_as_many_readings_as_there_may_be_are_read() -> None:
    text = "seconds,psi\n" + "".join(f"{number / 10},1\n" for number in range(10_000))
    assert len(log_of(text.encode(), "hold.csv").readings) == 10_000


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ([(0, 0), (3600, 300)], ""),
        ([(-0.5, 0), (60, 0)], "-0.5 s is no time in a hold"),
        ([(0, 0), (3600.5, 0)], "3600.5 s is no time in a hold"),
        ([(0, -0.5), (60, 0)], "-0.5 psi is no gauge pressure"),
        ([(0, 300.5), (60, 0)], "300.5 psi is no gauge pressure"),
        ([(0, 100), (0.01, 100)], ""),
        ([(0, 100), (0.009, 100)], "its time does not rise"),
        ([(0, 100)], "only 1 given"),
    ],
)
def test_readings_at_the_bounds_are_taken_and_beyond_them_are_told(
    readings: list[tuple[float, float]], told: str
) -> None:
    assert [str(problem.what) for problem in reading_problems(readings)] == ([told] if told else [])


@pytest.mark.parametrize(
    ("column", "unit", "shown"),
    [("kPa", "kPa", (758.0, 755.0)), ("KPA", "kPa", (758.0, 755.0)), ("Bar", "bar", (7.6, 7.55))],
)
def test_a_log_in_another_unit_is_read_in_psi(
    column: str, unit: str, shown: tuple[float, float]
) -> None:
    """1 psi is 6.894757 kPa (NIST SP 811, B.8), worked out by pint."""
    text = f"seconds,{column}\n0,{shown[0]}\n60,{shown[1]}\n"
    log = log_of(text.encode(), "hold.csv")
    in_psi = [pint.Quantity(each, unit).to("psi").magnitude for each in shown]
    assert log.unit == unit
    assert [psi for _, psi in log.readings] == pytest.approx(in_psi, rel=1e-9)


def test_what_is_wrong_with_a_reading_is_told_by_its_number() -> None:
    odd = [(0.0, 100.0), (0.0, 100.0), (60.0, 400.0)]
    assert [str(problem.where) for problem in reading_problems(odd)] == [
        "readings, reading 3",
        "readings, reading 2",
    ]
    doubled = [(0.0, 100.0), (10.0, 95.0), (20.0, 95.0)]
    assert [str(p.where) for p in crossing_problems(doubled, 60.0, 5.0)] == ["readings, reading 3"]
    between = [(0.0, 100.0), (10.0, 97.0)]
    assert [str(p.where) for p in crossing_problems(between, 60.0, 5.0)] == ["readings, reading 2"]


@pytest.mark.parametrize(
    ("watched_s", "sound"),
    [(9.9, False), (10.0, True), (3600.0, True), (3600.5, False), (float("nan"), False)],
)
def test_taps_are_watched_until_the_last_of_them_at_least(watched_s: float, sound: bool) -> None:
    taps = [(0.0, 100.0), (10.0, 95.0)]
    keys = [problem.key for problem in crossing_problems(taps, watched_s, 5.0)]
    assert keys == ([] if sound else ["watched_s"])


def test_a_single_tap_must_be_watched_for_a_moment() -> None:
    assert [*crossing_problems([(0.0, 100.0)], 0.01, 5.0)] == []
    assert [*crossing_problems([(5.0, 100.0)], 5.02, 5.0)] == []
    assert [problem.key for problem in crossing_problems([(5.0, 100.0)], 5.005, 5.0)] == [
        "watched_s"
    ]


def test_a_mark_changed_from_another_unit_is_still_a_mark() -> None:
    """0.5 bar is 7.2519 psi, here to two decimals: less than a hundredth of a step off."""
    taps = [(0.0, 101.53), (30.0, 94.28), (60.0, 87.02)]
    assert [*crossing_problems(taps, 90.0, 7.2519)] == []
    assert [*crossing_problems([(0.0, 101.53), (30.0, 94.1)], 90.0, 7.2519)]


@pytest.mark.parametrize(
    ("value", "sound"), [(0, True), (300, True), (-0.5, False), (300.5, False)]
)
def test_an_argument_is_a_number_of_psi_that_can_be(value: float, sound: bool) -> None:
    assert bool([*argument_problems({"limit": value})]) != sound


cell = st.one_of(
    st.floats().map(str),
    st.floats(0, 400).map(lambda value: str(value).replace(".", ",")),
    st.integers().map(str),
    st.text(max_size=5),
    st.sampled_from(["", "nan", "inf", "-inf", "1e400", "#", '"', "0x10", "1_000"]),
)


@st.composite
def logs(draw: st.DrawFn) -> bytes:
    mark = draw(st.sampled_from([",", ";", "\t"]))
    end = draw(st.sampled_from(["\n", "\r\n", "\r"]))
    rows = draw(st.lists(st.lists(cell, max_size=4), max_size=6))
    head = draw(st.sampled_from([["seconds", "psi"], ["psi", "x", "seconds"], []]))
    text = end.join(mark.join(row) for row in [head, *rows])
    return text.encode(draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16"])), "replace")


@given(
    st.binary(max_size=200) | logs() | st.text().map(lambda text: text.encode("utf-8", "replace"))
)
@example(b"\xff\xfe\x00")
@example(b'seconds,psi\n"0,1')
@example(b"seconds,psi\n0,1\x000\n")
@settings(max_examples=400)
def test_any_file_is_read_or_told_in_one_sentence(data: bytes) -> None:
    with suppress(InputError):
        assert all(0 <= psi <= 300 for _, psi in log_of(data, "hold.csv").readings)
        return
    told(data)
