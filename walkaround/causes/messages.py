"""Causes and things to do as messages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from walkaround.base.message import Message, Text, message
from walkaround.causes.faults import LampFault
from walkaround.causes.network import Network
from walkaround.causes.trials import LampTrial
from walkaround.lamps.names import lamps_named
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Wiring

_PLACES = frozenset(
    f"{end}_{side}" for end in ("front", "rear") for side in ("left", "centre", "right")
)
_PLACES |= {"left_side", "right_side"}


@dataclass(frozen=True, slots=True)
class Names:
    """The names of the parts of one vehicle.

    Attributes:
        lamps: by housing and circuit, and by housing alone with an empty circuit.
        circuits: by id.
        leds: housing and circuit of what is an LED.
    """

    lamps: Mapping[tuple[str, str], Text]
    circuits: Mapping[str, Text]
    leds: frozenset[tuple[str, str]]


def names_of(network: Network, lamps: Sequence[Lamp], wiring: Wiring) -> Names:
    """Name the lamps and circuits of a vehicle."""
    inside: dict[tuple[str, str], list[Lamp]] = {}
    for lamp in lamps:
        for circuit in (wiring.circuit_of[lamp.id], ""):
            inside.setdefault((lamp.housing, circuit), []).append(lamp)
    return Names(
        {place: lamps_named(lamps_there) for place, lamps_there in inside.items()},
        {circuit.id: circuit.name for circuit in wiring.circuits},
        frozenset((load.housing, load.circuit) for load in network.loads if load.led),
    )


def fault_named(fault: LampFault, names: Names) -> Message:
    """Name a fault: "bulb of the left stop lamp, stop lamps"."""
    return message(f"cause-{_hyphened(_kind(fault, names))}", **_places(fault, names))


def why_fault(fault: LampFault, names: Names) -> Message:
    """Say why this fault would look as it was seen."""
    return message(f"cause-why-{_hyphened(_kind(fault, names))}", **_places(fault, names))


def trial_said(trial: LampTrial, names: Names) -> Message:
    """Say what to do."""
    what: str = trial.what
    if what == "wiggle":
        what = "wiggle-at" if trial.cluster else "wiggle-feed"
    elif what == "swap" and (trial.housing, trial.circuit) in names.leds:
        what = "swap-led"
    arguments: dict[str, Any] = {}
    if trial.circuit:
        arguments["circuit"] = names.circuits[trial.circuit]
    if trial.housing:
        alone = (trial.housing, trial.circuit)
        arguments["lamp"] = names.lamps.get(alone) or names.lamps[trial.housing, ""]
    if trial.cluster:
        arguments["place"] = _cluster_named(trial.cluster)
    return message(f"trial-{what}", **arguments)


def outcome_said(trial: LampTrial, outcome: str, most_ground_volts: float) -> Message:
    """Say what is found: "about 12.8 V"."""
    reading = f"{trial.usual:.1f}"
    args = {"volts": {"volts": reading}, "clamp": {"amps": reading}}.get(trial.what, {})
    if trial.what == "ground":
        args = {"most": f"{most_ground_volts:g}"}
    return message(f"outcome-{trial.what}-{_hyphened(outcome)}", **args)


def _kind(fault: LampFault, names: Names) -> str:
    led = fault.kind == "burnt_out" and _housing_and_circuit(fault) in names.leds
    return "burnt_out_led" if led else fault.kind


def _places(fault: LampFault, names: Names) -> dict[str, Text]:
    match fault.kind:
        case "burnt_out":
            at = _housing_and_circuit(fault)
            return {"lamp": names.lamps[at], "circuit": names.circuits[at[1]]}
        case "open_branch":
            circuit, _, cluster = fault.place.partition("@")
            return {"circuit": names.circuits[circuit], "place": _cluster_named(cluster)}
        case "open_feed" | "poor_feed" | "shorted":
            return {"circuit": names.circuits[fault.place]}
        case "open_ground" | "poor_ground":
            return {"place": _cluster_named(fault.place)}
        case "crossed" | "bridged":
            one, _, other = fault.place.partition("+")
            return {"one": names.circuits[one], "other": names.circuits[other]}
        case _:
            return {}


def _housing_and_circuit(fault: LampFault) -> tuple[str, str]:
    housing, _, circuit = fault.place.partition(":")
    return housing, circuit


def _cluster_named(cluster: str) -> Message:
    if cluster in _PLACES:
        return message(f"cause-place-{_hyphened(cluster)}")
    return message("cause-place-named", name=cluster.replace("_", " "))


def _hyphened(word: str) -> str:
    return word.replace("_", "-")
