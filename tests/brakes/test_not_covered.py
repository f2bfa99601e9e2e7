"""What is not checked is said, for each brake system."""

from __future__ import annotations

from datetime import date
from typing import Any, get_args

import pytest

from walkaround.brakes.not_covered import not_covered
from walkaround.vehicle.model import BrakeSystem, Vehicle
from walkaround.words.pronunciation import pronounced

SYSTEMS: tuple[BrakeSystem, ...] = get_args(BrakeSystem)


def sentences(system: str, *foundations: str, **brakes: Any) -> list[str]:
    axles = [{"foundation": foundation} for foundation in foundations]
    vehicle = Vehicle.model_validate(
        {
            "id": "x",
            "kind": "semitrailer",
            "made": date(1990, 1, 1),
            "width_mm": 2500,
            "length_mm": 9000,
            "electrical": {"volts": 12, "connector": "x"},
            "brakes": {"system": system, "axles": axles, **brakes},
        }
    )
    return [str(sentence) for sentence in not_covered(vehicle)]


@pytest.mark.parametrize(
    ("system", "words"),
    [
        ("air", "Braking force and stopping distance are not measured here"),
        ("air_over_hydraulic", "fluid level, fluid leaks"),
        ("electric", "magnets, wiring, controller"),
        ("surge", "the travel of the coupling"),
        ("none", "if it has brakes, they are not checked here"),
    ],
)
def test_each_system_says_what_is_left_out(system: str, words: str) -> None:
    assert words in sentences(system, "drum")[0]
    assert len(sentences(system, "drum")) == 1


def test_disc_brakes_are_named_by_axle() -> None:
    assert sentences("air", "disc")[1].startswith("Disc brakes on axle 1: rotors")
    found = sentences("air", "disc", "drum", "disc", "disc")[1]
    assert found.startswith("Disc brakes on axles 1, 3, and 4: ")
    assert len(sentences("electric", "disc")) == 1


def test_of_the_abs_the_lamp_alone_is_checked() -> None:
    assert "the lamp alone" in sentences("air", "drum", abs=True)[-1]


@pytest.mark.parametrize("system", SYSTEMS)
def test_sentences_can_be_said_and_never_call_anything_safe(system: BrakeSystem) -> None:
    for sentence in sentences(system, "disc", "disc", abs=True):
        said = pronounced(sentence)
        assert sentence.endswith(".")
        assert not any(character.isdigit() for character in said)
        assert not {"safe", "safely", "roadworthy", "pass", "passes"} & set(said.lower().split())
