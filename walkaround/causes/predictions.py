"""What every variant of every fault does to the voltages of a network in some settings.

A change where nothing flows changes nothing: a wire may be cut that carries no current. So of all
variants in all settings only those are solved that touch a current; the others are as without a
fault.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from walkaround.causes.faults import FaultVariant, apply_variant, variants_of
from walkaround.causes.network import Flags, Network, Numbers, faultless_states
from walkaround.causes.solution import Solution, solve

_NOTHING_A = 1e-3
"""No lamp shows less than this, A."""


class LitCircuits(NamedTuple):
    """The circuits that are on at once, and which of them flash, by their ids."""

    on: frozenset[str]
    flashing: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Predictions:
    """Every variant in every setting, each solved once.

    Attributes:
        phases: what is on in each column, [column, circuit]; the settings in their order, then
            those of them of which some circuits flash and others do not, in the dark phase.
        dark_phase: the column of a setting's dark phase, by the setting's place; -1 without one.
        row: where a variant is solved in a column, [variant, column]; the first rows are without
            a fault, one for each column.
        column: the column of each row.
    """

    network: Network
    settings: tuple[LitCircuits, ...]
    phases: Flags
    dark_phase: Numbers
    variants: tuple[FaultVariant, ...]
    row: Numbers
    column: Numbers
    solution: Solution


def predict(network: Network, settings: Sequence[LitCircuits]) -> Predictions:
    """Work out every variant of every fault in these settings."""
    phases = [_phase(network, setting.on) for setting in settings]
    dark_phase = np.full(len(settings), -1, dtype=np.intp)
    for place, setting in enumerate(settings):
        if setting.flashing and setting.flashing != setting.on:
            dark_phase[place] = len(phases)
            phases.append(_phase(network, setting.on - setting.flashing))
    on = np.array(phases, dtype=np.bool_).reshape(len(phases), len(network.circuits))
    unharmed = solve(network, faultless_states(network, on))
    variants = variants_of(network)
    row = np.tile(np.arange(len(on)), (len(variants), 1))
    column = [*range(len(on))]
    rows_of: dict[tuple[object, ...], Numbers] = {}
    touched: list[tuple[FaultVariant, Numbers]] = []
    for place, variant in enumerate(variants):
        columns = np.flatnonzero(_touches(network, variant, on, unharmed))
        key = (variant.fault, variant.ohms)
        if key not in rows_of:
            rows_of[key] = np.arange(len(column), len(column) + len(columns))
            column += columns.tolist()
            touched.append((variant, rows_of[key]))
        row[place, columns] = rows_of[key]
    at = np.array(column, dtype=np.intp)
    states = faultless_states(network, on[at])
    for variant, rows in touched:
        apply_variant(states, rows, variant)
    solution = solve(network, states)
    return Predictions(network, tuple(settings), on, dark_phase, variants, row, at, solution)


def _phase(network: Network, on: frozenset[str]) -> list[bool]:
    return [circuit in on for circuit in network.circuits]


def _touches(network: Network, variant: FaultVariant, on: Flags, unharmed: Solution) -> Flags:
    """Tell in which columns a variant changes anything."""
    amps = np.zeros(len(on))
    match variant.fault.kind:
        case "burnt_out":
            amps = unharmed.amps[:, variant.at[0]]
        case "open_branch":
            amps = unharmed.amps[:, network.branch_of == variant.at[0]].sum(axis=1)
        case "open_feed" | "poor_feed" | "shorted":
            amps = unharmed.feeds[:, variant.at[0]]
        case "open_ground" | "poor_ground":
            cluster = unharmed.nodes[:, 1 + len(network.circuits) + variant.at[0]]
            amps = (cluster - unharmed.nodes[:, -1]) / network.ground_ohms[variant.at[0]]
        case "crossed" | "bridged":
            amps = unharmed.feeds[:, variant.at[0]] * ~on[:, variant.at[1]]
            amps = amps + unharmed.feeds[:, variant.at[1]] * ~on[:, variant.at[0]]
        case "open_main_ground" | "corroded_plug":
            amps = unharmed.feeds.sum(axis=1)
    return np.asarray(np.abs(amps) > _NOTHING_A)
