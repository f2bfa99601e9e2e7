"""What can be done next, and what would come out of it with each variant of each fault.

A trial is a look at a circuit not seen yet, a measurement, a swap, a wiggle: short, at a lamp, a
ground or the plug. None needs a wire pierced; none probes the contacts of ABS or of data; none
feeds a circuit that tripped.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from walkaround.causes.appearance import HousingLooks
from walkaround.causes.figures import LAMP_LOOKS, LampLook
from walkaround.causes.network import Flags, Floats
from walkaround.causes.predictions import Predictions

TrialKind = Literal[
    "look", "breaker", "volts", "ground", "clamp", "cable", "wiggle", "swap", "ohms", "flasher"
]

OUTCOMES: dict[TrialKind, tuple[str, ...]] = {
    "look": ("lit", "dim", "dark"),
    "breaker": ("tripped", "in"),
    "volts": ("full", "low", "none"),
    "ground": ("good", "bad"),
    "clamp": ("right", "low", "high", "none"),
    "cable": ("cured", "same"),
    "wiggle": ("changes", "same"),
    "swap": ("cured", "same"),
    "ohms": ("near_zero", "open"),
    "flasher": ("cured", "same"),
}
"""What can come out of each kind of trial."""

_PLAINLY: Mapping[LampLook, str] = {"glow": "dark", "dark": "dark", "dim": "dim", "flicker": "dim"}
"""What a look is called where no more than lit, dim and dark is asked; the others are lit."""
_UNPROBED = frozenset({"abs"})
"""Circuits whose contacts are never probed."""
_MOST_OUTCOMES = max(map(len, OUTCOMES.values()))
# A poor or loose joint that is moved shows itself more often than not; nothing else does.
_MOVED = {"loose": 0.8, "poor": 0.5, "other": 0.03}


@dataclass(frozen=True, slots=True)
class LampTrial:
    """One thing to do.

    Attributes:
        circuit, housing, cluster: where; empty where that does not matter.
        minutes: what it takes, with getting there.
        usual: what a meter shows there in a sound vehicle, V or A.
        chances: of each outcome with each variant, [outcome, variant], the last variant being a
            vehicle without a fault; rows beyond the outcomes of its kind are 0.
    """

    what: TrialKind
    minutes: float
    chances: Floats
    circuit: str = ""
    housing: str = ""
    cluster: str = ""
    usual: float = 0.0

    @property
    def id(self) -> str:
        """What it is called in case files: `volts:stop:rear_left`."""
        places = (self.circuit, self.housing, self.cluster)
        return ":".join([self.what, *filter(None, places)])

    @property
    def outcomes(self) -> tuple[str, ...]:
        """What can come out of it."""
        return OUTCOMES[self.what]


def trials_of(
    predictions: Predictions, housing_looks: HousingLooks, *, towed: bool, alone: Collection[str]
) -> tuple[LampTrial, ...]:
    """List everything that can be done at a vehicle, whose first settings are single circuits.

    Args:
        predictions, housing_looks: of the vehicle.
        towed: a cable, which can be changed, feeds it.
        alone: circuits that can be lit without any other.
    """
    return tuple(_Trials(predictions, housing_looks).all(towed=towed, alone=alone))


def is_allowed(trial: LampTrial, tripped: Collection[str]) -> bool:
    """Tell whether it may be done while these circuits have tripped: none of them is fed.

    Where no circuit is named any may be on: nothing is wiggled, and no cable changed, meanwhile.
    """
    if trial.what in ("breaker", "ohms"):
        return True
    return trial.circuit not in tripped if trial.circuit else not tripped


class _Trials:
    """The trials of one vehicle, by what they are done with."""

    def __init__(self, predictions: Predictions, housing_looks: HousingLooks) -> None:
        self.predictions, self.housing_looks = predictions, housing_looks
        self.network = predictions.network
        self.figures = self.network.figures
        variants = predictions.variants
        self.row = np.vstack([predictions.row, np.arange(len(predictions.phases))])
        self.kinds = np.array([*(variant.fault.kind for variant in variants), ""])
        self.at = np.array([*((*variant.at, -1)[0] for variant in variants), -1])
        self.loose = np.array([*(variant.how == "loose" for variant in variants), False])
        of_word = np.array(
            [[_word(look) == word for word in OUTCOMES["look"]] for look in LAMP_LOOKS]
        )
        self.words = np.moveaxis(housing_looks.shares @ of_word, -1, 0)

    def all(self, *, towed: bool, alone: Collection[str]) -> Iterator[LampTrial]:
        network, solution = self.network, self.predictions.solution
        probed = [c for c in network.circuits if c not in _UNPROBED]
        for place, circuit in enumerate(network.circuits):
            for at, housing in enumerate(self.housing_looks.housings if circuit in alone else ()):
                words = self.words[:, :, place, at]
                yield self._trial("look", words, circuit=circuit, housing=housing)
            yield self._made("breaker", self._is("shorted", place), circuit=circuit)
        for circuit in probed:
            place = network.circuits.index(circuit)
            feeds = solution.feeds[self.row[:, place], place]
            yield self._clamp(circuit, feeds)
            yield self._made("ohms", self._is("shorted", place), circuit=circuit)
        for at, load in enumerate(network.loads):
            place = network.circuits.index(load.circuit)
            if load.circuit in probed:
                volts = solution.ends[self.row[:, place], network.branch_of[at]]
                yield self._volts(load.circuit, load.housing, volts)
            yield self._made(
                "swap", self._is("burnt_out", at), circuit=load.circuit, housing=load.housing
            )
        for at, cluster in enumerate(network.clusters):
            cluster_loads = [load for load in network.loads if load.cluster == cluster]
            here = [load for load in cluster_loads if load.circuit in probed]
            for circuit in dict.fromkeys(load.circuit for load in here):
                place = network.circuits.index(circuit)
                volts = solution.nodes[self.row[:, place], 1 + len(network.circuits) + at]
                main = solution.nodes[self.row[:, place], -1]
                bad = np.abs(volts - main) > self.figures["ground_volts_good"]
                yield self._made("ground", ~bad, circuit=circuit, cluster=cluster)
            branches = [b for b, (_, cluster_at) in enumerate(network.branches) if cluster_at == at]
            moved = self._is("open_ground", at) | self._is("poor_ground", at)
            for branch in branches:
                moved = moved | self._is("open_branch", branch)
            yield self._wiggle(moved, cluster=cluster)
        plug = np.isin(self.kinds, ("open_feed", "poor_feed", "open_main_ground", "corroded_plug"))
        yield self._wiggle(plug)
        if any(setting.flashing for setting in self.predictions.settings):
            yield self._made("flasher", self.kinds == "flasher")
        if towed:
            in_cable = plug | np.isin(self.kinds, ("crossed", "bridged", "shorted"))
            cured = self.figures["in_cable_share"] * in_cable
            yield self._trial("cable", np.array([cured, 1 - cured]))

    def _is(self, kind: str, at: int) -> Flags:
        return np.asarray((self.kinds == kind) & (self.at == at))

    def _made(self, what: TrialKind, first: Flags, **places: str) -> LampTrial:
        """Make a trial of two outcomes, the first of which comes out with these variants.

        What comes and goes shows half of the time.
        """
        chance = np.where(first, 1.0, 0.0)
        if what in ("swap", "ground"):
            usual = chance[-1]
            chance = np.where(self.loose & (chance != usual), 0.5, chance)
        return self._trial(what, np.array([chance, 1 - chance]), **places)

    def _trial(
        self, what: TrialKind, chances: Floats, usual: float = 0.0, /, **places: str
    ) -> LampTrial:
        """Make a trial with the errors of meters and of hands."""
        error, count = self.figures["meter_error"], len(OUTCOMES[what])
        padded = np.zeros((_MOST_OUTCOMES, chances.shape[1]))
        padded[:count] = chances * (1 - error) + error / count
        return LampTrial(what, self.figures[f"minutes_{what}"], padded, usual=usual, **places)

    def _volts(self, circuit: str, housing: str, volts: Floats) -> LampTrial:
        good, none = (self.figures[f"volts_{id_}"] * volts[-1] for id_ in ("good", "none"))
        bins = np.array([volts >= good, (volts < good) & (volts > none), volts <= none])
        chances = self._comes_and_goes(bins)
        return self._trial("volts", chances, float(volts[-1]), circuit=circuit, housing=housing)

    def _clamp(self, circuit: str, amps: Floats) -> LampTrial:
        good, high, none = (
            self.figures[f"amps_{id_}"] * amps[-1] for id_ in ("good", "high", "none")
        )
        low = (amps < good) & (amps > none)
        bins = np.array([(amps >= good) & (amps <= high), low, amps > high, amps <= none])
        chances = self._comes_and_goes(bins)
        return self._trial("clamp", chances, float(amps[-1]), circuit=circuit)

    def _comes_and_goes(self, bins: Flags) -> Floats:
        """Halve the chances: a loose joint is sound half of the time."""
        chances = bins.astype(float)
        halves = (chances + chances[:, -1:]) / 2
        return np.where(self.loose, halves, chances)

    def _wiggle(self, moved: Flags, **places: str) -> LampTrial:
        poor = np.isin(self.kinds, ("poor_ground", "poor_feed", "corroded_plug"))
        chance = np.full(len(moved), _MOVED["other"])
        chance[moved & poor] = _MOVED["poor"]
        chance[moved & self.loose] = _MOVED["loose"]
        return self._trial("wiggle", np.array([chance, 1 - chance]), **places)


def _word(look: LampLook) -> str:
    return _PLAINLY.get(look, "lit")
