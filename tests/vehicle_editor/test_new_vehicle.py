"""Copies, names and ids of vehicles of one's own."""

from __future__ import annotations

import re
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.made_up_vehicles import REFERENCE, SEMITRAILER, SHIPPED

from walkaround.vehicle.model import Kind
from walkaround.vehicle_editor.new_vehicle import (
    copy_of,
    id_for,
    is_free,
    new_vehicle_problems,
    next_name,
    noun,
    same_name,
    suggested_names,
    without_stray_characters,
)

names = st.lists(st.text(max_size=20) | st.sampled_from(["Trailer 7", "trailer 8"]), max_size=6)


def test_a_copy_is_of_the_same_build_and_takes_nothing_that_is_the_ones_own() -> None:
    own = {"vin": "1M8GDM9AXKP042788", "damage": ("Dented: rear left",)}
    copy = copy_of(SEMITRAILER.model_copy(update=own), ["Sandbag semitrailer 7"])
    assert copy.name == "Sandbag semitrailer 8"
    assert (copy.plate, copy.vin, copy.notes, copy.damage) == ("", "", "", ())
    assert copy.brakes == SEMITRAILER.brakes
    assert copy.electrical == SEMITRAILER.electrical


@pytest.mark.parametrize(
    ("name", "known", "following"),
    [
        ("Pump trailer 3", ["Pump trailer 3"], "Pump trailer 4"),
        ("Pump trailer 3", ["pump  Trailer 9", "Pump trailer 3"], "Pump trailer 10"),
        ("Trailer", [], "Trailer 1"),
        ("Trailer", ["Trailer"], "Trailer 1"),
        ("Trailer 7", ["Tractor 12"], "Trailer 1"),
    ],
)
def test_the_next_name_counts_on(name: str, known: list[str], following: str) -> None:
    assert next_name(name, known) == following


@given(st.text(max_size=20), names)
def test_the_next_name_is_no_one_elses(name: str, known: list[str]) -> None:
    spaced = [" ".join(other.split()).casefold() for other in known]
    assert next_name(name, known).casefold() not in spaced


@given(st.text(max_size=60), st.sets(st.from_regex(r"[a-z]{1,3}(_[0-9])?", fullmatch=True)))
def test_an_id_is_plain_free_and_no_address_of_the_app(name: str, taken: set[str]) -> None:
    id_ = id_for(name, taken)
    assert re.fullmatch(r"[a-z0-9_]{1,44}", id_)
    assert is_free(id_, taken)
    assert id_ != "new"


@pytest.mark.parametrize(
    ("name", "taken", "id_"),
    [
        ("Trailer 8", set(), "trailer_8"),
        ("Trailer 8", {"trailer_8"}, "trailer_8_2"),
        ("Trailer 8", {"trailer_8", "trailer_8_2"}, "trailer_8_3"),
        ("Flöte, große!", set(), "flote_groe"),
        ("Прицеп", set(), "vehicle"),
        ("New", set(), "new_2"),
        ("aux", set(), "aux_2"),
    ],
)
def test_ids_are_made_from_names(name: str, taken: set[str], id_: str) -> None:
    assert id_for(name, taken) == id_


def test_a_name_is_suggested_for_every_kind_and_the_ones_own_only_if_another_has_it() -> None:
    taken = [vehicle.name for vehicle in SHIPPED.values()]
    for kind in get_args(Kind):
        vehicle = SEMITRAILER.model_copy(update={"kind": kind})
        like, plain = suggested_names(vehicle, str(noun(kind)), taken)
        assert like == "Sandbag semitrailer 8"
        assert plain.endswith(" 1")
    alone = SEMITRAILER.model_copy(update={"name": "Light tower 5"})
    assert suggested_names(alone, "Trailer", ["Trailer 7"]) == ("Trailer 8",)
    assert (
        suggested_names(alone.model_copy(update={"name": "Trailer 8"}), "Trailer", ["Trailer 7"])
        == ()
    )


def test_names_are_the_same_however_they_are_spaced_and_capitalised() -> None:
    assert same_name(" sandbag  SEMITRAILER 7", SHIPPED.values()) == SEMITRAILER
    assert same_name("Sandbag semitrailer 70", SHIPPED.values()) is None


def test_what_slips_in_when_typing_is_taken_out() -> None:
    typed = {"name": " Trailer  8 ", "plate": "fr 0808 ", "vin": "1m8gdm9ax kp042788", "notes": " "}
    vehicle = without_stray_characters(SEMITRAILER.model_copy(update=typed))
    assert (vehicle.name, vehicle.plate) == ("Trailer 8", "FR 0808")
    assert (vehicle.vin, vehicle.notes) == ("1M8GDM9AXKP042788", "")


def test_what_is_not_seen_is_taken_out_of_what_is_typed() -> None:
    typed = {"name": "Tra\u202eiler\n8", "plate": "fr\u200b 0808", "notes": "a\r\nb\x1b"}
    vehicle = without_stray_characters(
        SEMITRAILER.model_copy(update={**typed, "damage": ("Dented\tfront.\x07",)})
    )
    assert (vehicle.name, vehicle.plate) == ("Trailer 8", "FR 0808")
    assert (vehicle.notes, vehicle.damage) == ("a\nb", ("Dented front.",))


def test_a_name_that_is_missing_or_anothers_is_a_problem_beside_those_of_the_vehicle() -> None:
    bad = SEMITRAILER.model_copy(update={"name": "", "width_mm": 9.0, "vin": "1M8GDM9A1KP042788"})
    assert [p.key for p in new_vehicle_problems(bad, SHIPPED.values(), REFERENCE)] == [
        "name",
        "width_mm",
        "vin",
    ]
    (twin,) = new_vehicle_problems(SEMITRAILER, SHIPPED.values(), REFERENCE)
    assert "is that of another vehicle, Sandbag semitrailer 7" in str(twin)
    assert not new_vehicle_problems(SEMITRAILER, [], REFERENCE)
