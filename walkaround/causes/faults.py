"""Every single fault that a network could have, and what each does to its states.

A fault is a kind and a place; it comes in variants, which look different: a joint is poor to
several degrees, or comes and goes; an LED goes out whole or in part. What a poor joint has is
scaled to what hangs on it, so that it shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Literal, NamedTuple

import numpy as np

from walkaround.causes.network import Floats, Network, Numbers, States

FaultKind = Literal[
    "burnt_out", "open_branch", "open_feed", "poor_feed", "shorted", "open_ground", "poor_ground",
    "open_main_ground", "corroded_plug", "crossed", "bridged", "flasher",
]  # fmt: skip
"""`shorted` is a circuit to the frame: it trips. `crossed`: two circuits have each other's wire.

`flasher` is what makes turn signals flash, on the vehicle or in what feeds it.
"""

ALONE = ""
"""The place of a fault that a vehicle can have once."""


class LampFault(NamedTuple):
    """A fault of the lamps' wiring: a kind and a place.

    Attributes:
        place: housing:circuit of what is burnt out, circuit@cluster of a branch, a circuit of a
            feed, a cluster of a ground, two circuits joined by + in the order of the alphabet.
    """

    kind: FaultKind
    place: str


@dataclass(frozen=True, slots=True)
class FaultVariant:
    """One of the ways in which a fault may look.

    Attributes:
        at: the load, branch, circuit, cluster or pair of circuits, as places in the network.
        ohms: what it has in series; infinite where it is open.
        share: how often the fault is like that.
        how: `whole`, `loose` (it comes and goes), `partly` (of an LED); of a flasher what it does.
    """

    fault: LampFault
    at: tuple[int, ...]
    ohms: float
    share: float
    how: Literal["whole", "loose", "partly", "fast", "slow", "steady"] = "whole"


def variants_of(network: Network) -> tuple[FaultVariant, ...]:
    """List every variant of every single fault of a network, the variants of each in a row."""
    return tuple(_variants(network))


def mended_alike(fault: LampFault) -> tuple[str, str]:
    """Tell what has to be mended: a ground or feed at one place, whether it is open or poor."""
    return fault.kind.removeprefix("open_").removeprefix("poor_"), fault.place


def prior(fault: LampFault, network: Network) -> float:
    """Tell how often this fails beside the others, before anything was seen."""
    led = fault.kind == "burnt_out" and any(
        load.led for load in network.loads if f"{load.housing}:{load.circuit}" == fault.place
    )
    return network.figures[f"prior_{fault.kind}{'_led' if led else ''}"]


def apply_variant(states: States, rows: Numbers, variant: FaultVariant) -> None:
    """Put a variant into these rows of the states, which are changed in place."""
    kind, at, ohms = variant.fault.kind, variant.at, variant.ohms
    match kind:
        case "burnt_out":
            states.burning[rows, at[0]] = False
        case "open_branch":
            states.branch_ohms[rows, at[0]] = np.inf
        case "open_feed" | "poor_feed" | "shorted":
            # What is shorted has tripped by the time it is looked at.
            states.feed_ohms[rows, at[0]] += ohms
        case "open_ground" | "poor_ground":
            states.ground_ohms[rows, at[0]] += ohms
        case "open_main_ground":
            states.main_ohms[rows] = np.inf
        case "corroded_plug":
            states.feed_ohms[rows] += ohms
            states.main_ohms[rows] += ohms
        case "crossed":
            one, other = at
            swapped = states.on[rows][:, [other, one]]
            states.on[rows[:, None], [one, other]] = swapped
        case "bridged":
            states.bridge[rows] = at


def _variants(network: Network) -> Iterator[FaultVariant]:
    figures, loose = network.figures, network.figures["loose_share"]

    def opened(fault: LampFault, at: tuple[int, ...] = ()) -> Iterator[FaultVariant]:
        yield FaultVariant(fault, at, np.inf, 1 - loose)
        yield FaultVariant(fault, at, np.inf, loose, "loose")

    def poor(
        fault: LampFault, at: tuple[int, ...], ohms: float, sizes: str
    ) -> Iterator[FaultVariant]:
        scales = [figures[id_] for id_ in figures if id_.startswith(sizes)]
        for scale in scales:
            yield FaultVariant(fault, at, scale * ohms, (1 - loose) / len(scales))
        yield FaultVariant(fault, at, scales[-1] * ohms, loose, "loose")

    for place, load in enumerate(network.loads):
        fault = LampFault("burnt_out", f"{load.housing}:{load.circuit}")
        # What the file calls a bulb may be an LED by now.
        partly = figures["partly_share" if load.led else "partly_unlisted_share"]
        yield FaultVariant(fault, (place,), np.inf, 1 - loose - partly)
        yield FaultVariant(fault, (place,), np.inf, loose, "loose")
        yield FaultVariant(fault, (place,), np.inf, partly, "partly")
    for place, (circuit, cluster) in enumerate(network.branches):
        name = f"{network.circuits[circuit]}@{network.clusters[cluster]}"
        yield from opened(LampFault("open_branch", name), (place,))
    hot = _hot_siemens(network)
    for place, name in enumerate(network.circuits):
        yield from opened(LampFault("open_feed", name), (place,))
        yield from poor(
            LampFault("poor_feed", name), (place,), hot[place].sum() ** -1, "poor_feed_"
        )
        yield FaultVariant(LampFault("shorted", name), (place,), np.inf, 1.0)
    for place, name in enumerate(network.clusters):
        yield from opened(LampFault("open_ground", name), (place,))
        heaviest = hot[:, place].max() ** -1
        yield from poor(LampFault("poor_ground", name), (place,), heaviest, "poor_ground_")
    yield from opened(LampFault("open_main_ground", ALONE))
    heaviest = hot.sum(axis=1).max() ** -1
    yield from poor(LampFault("corroded_plug", ALONE), (), heaviest, "corroded_contact_")
    for one, other in combinations(range(len(network.circuits)), 2):
        names = "+".join(sorted((network.circuits[one], network.circuits[other])))
        yield FaultVariant(LampFault("crossed", names), (one, other), 0.0, 1.0)
        yield FaultVariant(LampFault("bridged", names), (one, other), 0.0, 1.0)
    yield FaultVariant(LampFault("flasher", ALONE), (), 0.0, 1 / 3, "fast")
    yield FaultVariant(LampFault("flasher", ALONE), (), 0.0, 1 / 3, "slow")
    yield FaultVariant(LampFault("flasher", ALONE), (), 0.0, 1 / 3, "steady")


def _hot_siemens(network: Network) -> Floats:
    """Sum the hot conductances of what each circuit lights in each cluster, [circuit, cluster], S.

    An LED with a driver counts for less: it carries on until its voltage is far down.
    """
    siemens = np.zeros((len(network.circuits), len(network.clusters)))
    led_times = network.figures["poor_led_times"]
    of_load = network.amps / network.rated_volts / np.where(network.led, led_times, 1.0)
    for load, share in zip(network.loads, of_load, strict=True):
        place = network.circuits.index(load.circuit), network.clusters.index(load.cluster)
        siemens[place] += share
    return siemens
