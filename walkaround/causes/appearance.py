"""How each housing would look: from light to what the eye says of it.

A look is a share of the light that the housing has in a sound vehicle; of one that ought to be
dark, of what its weakest lamp gives. Between two looks there is no line but an edge, because eyes
differ; so a look is a share of eyes for each word, [..., look]. A misreading is a word at random,
the nearer ones in brightness before the others.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from walkaround.causes.figures import LAMP_LOOKS, LampFigures, LampLook
from walkaround.causes.network import Floats, Numbers
from walkaround.causes.predictions import Predictions
from walkaround.diagnosis.thresholds import share_above

Condition = Literal["sun", "rain", "dirty_lenses"]
"""What makes eyes err."""

_BRIGHTEST_FIRST: tuple[LampLook, ...] = ("bright", "lit", "dim", "glow", "dark")
_PLACE = {look: place for place, look in enumerate(LAMP_LOOKS)}
_LEAST_LIGHT = 1e-9


@dataclass(frozen=True, slots=True)
class HousingLooks:
    """The looks of each housing in each solved row and setting.

    Attributes:
        housings: their ids, in the order of the arrays.
        shares: of eyes, by look, of each variant, setting and housing,
            [variant, setting, housing, look]; the last variant is a vehicle without a fault.
    """

    housings: tuple[str, ...]
    shares: Floats


def predict_housing_looks(predictions: Predictions) -> HousingLooks:
    """Say how each housing would look with each variant in each setting."""
    network, figures = predictions.network, predictions.network.figures
    settings = len(predictions.settings)
    housings = tuple(dict.fromkeys(load.housing for load in network.loads))
    inside = np.array([[load.housing == h for h in housings] for load in network.loads])
    weight = np.array([load.watts for load in network.loads])
    light = (predictions.solution.light * weight) @ inside
    circuits = np.array([network.circuits.index(load.circuit) for load in network.loads])
    expected = (predictions.phases[:, circuits] @ inside) > 0
    weakest = np.where(inside, weight[:, None], np.inf).min(axis=0)
    full = np.where(expected, light[: len(expected)], weakest)
    share = light / full[predictions.column]
    by_row = _brightness(share, figures)
    with_sound = np.vstack([predictions.row, np.arange(len(predictions.phases))])
    shares = by_row[with_sound[:, :settings]]
    for place in np.flatnonzero(predictions.dark_phase >= 0):
        dark_phase = with_sound[:, predictions.dark_phase[place]]
        on, off = light[with_sound[:, place]], light[dark_phase]
        # What flashes by itself is seen in its lit phase; what is steady must not change.
        flashing = [predictions.settings[place].flashing & {c} != set() for c in network.circuits]
        of_signal = (np.array(flashing)[circuits] @ inside) > 0
        ratio = np.log(np.maximum(on, _LEAST_LIGHT) / np.maximum(off, _LEAST_LIGHT))
        over_edge = np.abs(ratio) - np.log(figures["look_pulse_from"])
        swings = share_above(over_edge / figures["look_pulse_edge"])
        seen = np.maximum(on, off) / full[place] > figures["look_glow_from"]
        _blend(shares[:, place], "pulsing", swings * seen * ~of_signal)
    _signal_rates(predictions, with_sound, inside, circuits, shares)
    _add_flicker_and_partial(predictions, shares)
    return HousingLooks(housings, shares)


def chance_said(
    fits: Floats, look: LampLook, figures: LampFigures, conditions: Collection[Condition] = ()
) -> Floats:
    """Return the chance that a housing is said to look so, [...].

    Args:
        fits: how well it looks each way, [..., look], 1 being how it looks to most eyes.
        look: what is said.
        figures: how eyes err.
        conditions: what makes them err more.

    One pair of eyes judges all housings alike, so near an edge either word fits nearly as well as
    the other; only a misreading is a matter of chance at each look. These are therefore no shares
    that sum to 1 over the words.
    """
    words = np.array([figures.fits(truly, look) for truly in LAMP_LOOKS])
    fitting = (fits[..., words > 0] * words[words > 0]).max(axis=-1)
    rate = figures["misread"]
    for condition in conditions:
        rate *= figures[f"misread_{'on' if condition == 'dirty_lenses' else 'in'}_{condition}"]
    rate = min(rate, figures["misread_at_most"])
    away = np.array(
        [[_nearness(truly, said_look) for said_look in LAMP_LOOKS] for truly in LAMP_LOOKS]
    )
    wrong = (away / away.sum(axis=1, keepdims=True))[:, LAMP_LOOKS.index(look)]
    return np.asarray((1 - rate) * fitting + rate * wrong[fits.argmax(axis=-1)])


def _nearness(truly: LampLook, reported: LampLook) -> float:
    """Return how much likelier than others a wrong word is; nearest in brightness first."""
    if truly == reported:
        return 0.0
    if truly in _BRIGHTEST_FIRST and reported in _BRIGHTEST_FIRST:
        return 0.7 ** abs(_BRIGHTEST_FIRST.index(truly) - _BRIGHTEST_FIRST.index(reported))
    return 0.1


def _brightness(share: Floats, figures: LampFigures) -> Floats:
    """Return the shares of eyes by look for a share of light, [..., look]."""
    edges = ("look_bright_from", "look_lit_from", "look_dim_from", "look_glow_from")
    ln = np.log(np.maximum(share, _LEAST_LIGHT))
    above = [share_above((ln - np.log(figures[edge])) / figures["look_edge"]) for edge in edges]
    looks = np.zeros((*share.shape, len(LAMP_LOOKS)))
    below = np.zeros_like(share)
    for look, here in zip(_BRIGHTEST_FIRST, [*above, np.ones_like(share)], strict=True):
        looks[..., _PLACE[look]] = np.maximum(here - below, 0.0)
        below = np.maximum(here, below)
    return looks


def _blend(shares: Floats, look: LampLook, part: Floats) -> None:
    """Let a part of the eyes say this look instead; `shares` is changed in place."""
    shares *= (1 - part)[..., None]
    shares[..., _PLACE[look]] += part


def _signal_rates(
    predictions: Predictions,
    rows: Numbers,
    inside: Floats,
    circuits: Numbers,
    shares: Floats,
) -> None:
    """Change the rate of a flasher that feels its load where a lamp is lost.

    An electronic one goes about twice as fast then; one that is heated by the current goes slower,
    with little left it stays on, and with more than usual it goes faster. One that is bad itself
    does so whatever burns.
    """
    network, figures = predictions.network, predictions.network.figures
    electronic, heated = figures["flasher_electronic"], figures["flasher_heated"]
    bad = np.array([*(variant.how for variant in predictions.variants), "whole"])
    for place, setting in enumerate(predictions.settings):
        on = [network.circuits.index(circuit) for circuit in setting.flashing]
        amps = predictions.solution.feeds[rows[:, place]][:, on].sum(axis=1)
        if amps[-1] == 0:
            continue
        load = amps / amps[-1]
        less, least = load < figures["flash_odd_below"], load < figures["flash_stops_below"]
        odd_rates: Mapping[LampLook, Floats] = {
            "fast": electronic * less + heated * (load > figures["flash_fast_above"]),
            "slow": heated * (less & ~least),
            "steady": heated * least,
        }
        lit = np.isin(circuits, on) @ inside > 0
        usual = shares[:, place, :, _PLACE["lit"]] * lit
        for look, part in odd_rates.items():
            moved = np.where(bad == look, 1.0, part)[:, None] * usual
            shares[:, place, :, _PLACE[look]] += moved
            shares[:, place, :, _PLACE["lit"]] -= moved


def _add_flicker_and_partial(predictions: Predictions, shares: Floats) -> None:
    """Let loose joints flicker where they would look otherwise; an LED fail in part."""
    usual = shares[-1].argmax(axis=-1)
    for place, variant in enumerate(predictions.variants):
        if variant.how not in ("loose", "partly"):
            continue
        look: LampLook = "flicker" if variant.how == "loose" else "some_out"
        looks_otherwise = shares[place].argmax(axis=-1) != usual
        shares[place][looks_otherwise] = 0.0
        shares[place][looks_otherwise, _PLACE[look]] = 1.0
