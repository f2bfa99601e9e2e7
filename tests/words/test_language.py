"""Messages become text: numbers, lists, plurals, units and a checklist's own placeholders."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH

from walkaround.base.message import Message, Quantity, message
from walkaround.base.units import PSI_KPA, Units
from walkaround.words.language import Words, language_name

FILE = """
lamps = { $count ->
    [one] { SPELLED($count) } lamp
   *[other] { SPELLED($count) } lamps
 }
stand = { CAPITAL($where) }: { $what }.
why = { SMALL($why) }
rate = at most { $limit }
counts = { ITEMS($counts) }
volts = { EITHER($volts) }
made = { MONTH($month) }
range-link = { $link ->
    [to] to
   *[and] and
 }
"""
WORDS = Words("en", [FILE])
METRIC = WORDS.shown_in(Units("kPa", "mm"))


@pytest.mark.parametrize(
    ("count", "text"), [(1, "one lamp"), (2, "two lamps"), (12, "twelve lamps"), (13, "13 lamps")]
)
def test_a_count_is_spelled_out_to_twelve_and_has_its_plural(count: int, text: str) -> None:
    assert WORDS("lamps", count=count) == text


def test_messages_and_lists_go_into_messages() -> None:
    lamps = message("lamps", count=2)
    assert WORDS("stand", where="rear", what=lamps) == "Rear: two lamps."
    assert WORDS("stand", where="rear", what=("tail", "stop", lamps)) == (
        "Rear: tail, stop, and two lamps."
    )


def test_a_list_is_joined_as_the_message_says() -> None:
    assert WORDS("counts", counts=("2 stop", "2 tail", "1 plate")) == "2 stop, 2 tail, 1 plate"
    assert WORDS("volts", volts=("12 V", "24 V")) == "12 V or 24 V"
    assert WORDS("volts", volts=()) == ""
    assert WORDS("counts", counts="2 stop") == "2 stop"


def test_a_text_can_begin_small_inside_a_sentence() -> None:
    assert WORDS("why", why="No air") == "no air"


def test_months_are_named_in_the_language_and_not_in_the_machines() -> None:
    """Names from CLDR, the Unicode Consortium's table of locales."""
    assert [WORDS("made", month=5), WORDS("made", month=12)] == ["May", "Dec"]
    assert Words("es", [FILE])("made", month=1) == "ene"


def test_a_text_may_be_as_long_as_people_write_it() -> None:
    """The library's own bound is 2,500 characters, and a list of damage may be longer."""
    long = "bent " * 10_000
    assert WORDS("stand", where="rear", what=long) == f"Rear: {long}."


def test_a_quantity_is_shown_in_the_readers_units() -> None:
    """NIST SP 811 (2008), B.8: 1 psi = 6.894757 kPa; an inch is 25.4 mm."""
    assert WORDS("rate", limit=Quantity(value=3, unit="psi_per_min", decimals=1)) == (
        "at most 3.0 psi/min"
    )
    assert METRIC("rate", limit=Quantity(value=100, unit="psi")) == "at most 689 kPa"
    assert METRIC("rate", limit=Quantity(value=0.25, unit="in")) == "at most 6.4 mm"


def test_a_text_that_is_no_message_is_shown_as_it_is() -> None:
    assert WORDS.text("Left mudguard {bent}") == "Left mudguard {bent}"


@pytest.mark.parametrize(
    ("written", "shown", "metric"),
    [
        ("Charge to {110 psi}.", "Charge to 110 psi.", "Charge to 758 kPa."),
        ("Between {80 to 90 psi}.", "Between 80 to 90 psi.", "Between 552 to 621 kPa."),
        ("{1 7/8 in} at most", "1 7/8 in at most", "47.6 mm at most"),
        ("pin 6 in the plug", "pin 6 in the plug", "pin 6 in the plug"),
        ("Axle {axle}, {side}", "Axle 2, left", "Axle 2, left"),
    ],
)
def test_a_checklists_text_is_filled(written: str, shown: str, metric: str) -> None:
    text = Message(id="list/step/title", args={"axle": 2, "side": "left"}, written=written)
    assert WORDS.text(text) == shown
    assert METRIC.text(text) == metric


def test_a_checklists_text_is_translated_by_its_id() -> None:
    text = Message(id="list/step/title", args={"axle": 2}, written="Axle {axle}")
    other = Words("es", [], checklists={("list/step/title", "Axle {axle}"): "Eje {axle}"})
    assert other.text(text) == "Eje 2"


def test_a_text_that_was_written_otherwise_is_not_translated() -> None:
    """What an older walk, or a shop's own checklist, orders is never another order in Spanish."""
    changed = Message(id="list/step/title", written="Charge to {100 psi}")
    told = {("list/step/title", "Charge to {110 psi}"): "Cargue a {110 psi}"}
    assert Words("es", [], checklists=told).text(changed) == "Charge to 100 psi"


def test_numbers_are_written_as_in_the_americas() -> None:
    """CLDR, es_US: a point before decimals."""
    assert Words("es", ["long = { NUMBER($m) } m"])("long", m=1234.5) == "1,234.5 m"
    assert Words("de", ["long = { NUMBER($m) } m"])("long", m=1234.5) == "1.234,5 m"


@pytest.mark.parametrize(
    ("parts", "both", "either"),
    [
        (("frente", "izquierda"), "frente e izquierda", "frente o izquierda"),
        (("uno", "otro"), "uno y otro", "uno u otro"),
        (("carga", "hielo"), "carga y hielo", "carga o hielo"),
        (("a", "b", "izquierda"), "a, b e izquierda", "a, b o izquierda"),
        (("7 V", "8 V"), "7 V y 8 V", "7 V u 8 V"),
        (("solo",), "solo", "solo"),
    ],
)
def test_spanish_lists_heed_the_sound_of_their_last_word(
    parts: tuple[str, ...], both: str, either: str
) -> None:
    """Real Academia Española, Diccionario panhispánico de dudas: "y" 2, "o" 2 (from memory)."""
    spanish = Words("es", ["both = { $parts }", "either = { EITHER($parts) }"])
    assert spanish("both", parts=parts) == both
    assert spanish("either", parts=parts) == either


def test_a_language_shows_in_another_what_it_lacks_and_is_spoken_in_that() -> None:
    some = Words("de", ["lamps = { $count } Lampen"], fallback=WORDS)
    assert some("lamps", count=2) == "2 Lampen"
    assert some("made", month=5) == "May"
    assert some.has("made")
    assert not some.has("nowhere")
    assert some.lacking == len(WORDS.ids) - 1
    assert some.voice is WORDS
    assert some.shown_in(Units("kPa", "mm"))("rate", limit=Quantity(value=100, unit="psi")) == (
        "at most 689 kPa"
    )
    whole = Words("de", [FILE], fallback=WORDS)
    assert whole.lacking == 0
    assert whole.voice is whole


def test_a_language_is_named_as_its_speakers_name_it() -> None:
    """Names from CLDR."""
    assert [language_name(each) for each in ("en", "es", "de")] == [
        "English",
        "Español",
        "Deutsch",
    ]


@pytest.mark.parametrize("wrong", ["lamps-of-nobody", "lamps"])
def test_a_message_that_is_not_there_or_lacks_something_is_refused(wrong: str) -> None:
    with pytest.raises(LookupError, match=wrong):
        WORDS(wrong)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        (Message(id="list/step/title", written="{volts} V"), "{volts} V"),
        (
            message("lamps-of-nobody", count=2, where="rear"),
            "lamps-of-nobody (count=2, where=rear)",
        ),
        (message("lamps", count="several"), "lamps (count=several)"),
        (message("lamps"), "lamps"),
    ],
)
def test_what_a_record_from_elsewhere_says_wrongly_is_shown_as_it_stands(
    text: Message, shown: str
) -> None:
    assert WORDS.text(text) == shown


@given(st.integers(1, 300))
def test_a_written_pressure_is_the_same_pressure_in_kilopascals(psi: int) -> None:
    text = METRIC.text(Message(id="a/b/c", written=f"{{{psi} psi}}"))
    assert abs(float(text.removesuffix(" kPa")) - psi * PSI_KPA) <= 0.5


def test_messages_can_be_stored_and_read_again() -> None:
    """A plan holds them, and a walk's file holds the plan."""
    inner = message("lamps", count=2)
    said = message("stand", where="rear", what=(inner, Quantity(value=1, unit="in"), 3, 2.5))
    assert Message.model_validate_json(said.model_dump_json()) == said
    assert hash(Message.model_validate_json(said.model_dump_json())) == hash(said)


def test_logs_and_errors_read_in_the_language_of_the_process() -> None:
    assert str(message("place-in-file", where="x.toml", key="id")) == "x.toml, id"
    assert ENGLISH.language == "en"
