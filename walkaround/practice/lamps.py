"""How the lamps of a vehicle in practice look at each of its steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from walkaround.causes.appearance import HousingLooks, predict_housing_looks
from walkaround.causes.faults import FaultVariant
from walkaround.causes.figures import LAMP_LOOKS, LampLook
from walkaround.causes.predictions import predict
from walkaround.causes.study import Study
from walkaround.drawing.lamp_symbol import Shown
from walkaround.plan.steps import Plan, Step
from walkaround.walk.evidence.lamps_seen import lit_circuits

_PLAIN = 0.75
"""A look is plain if no fewer eyes agree on it."""
_RATES = [LAMP_LOOKS.index(look) for look in ("fast", "slow")]
_UNSHOWN = frozenset({"bright", "glow", "flicker", "some_out"})
"""Looks that the picture has no drawing for, or that most people would call by two words."""


@dataclass(frozen=True, slots=True)
class SeenLamps:
    """Every fault of a vehicle's wiring at every lamp step of its walk.

    Attributes:
        variants: the faults, in the order of `housing_looks`, whose last row is without a fault.
        setting: where the setting of a step is among those of `housing_looks`, by the step's id.
        wired: the housings that its circuits feed, by the step's id.
    """

    plan: Plan
    variants: tuple[FaultVariant, ...]
    housing_looks: HousingLooks
    setting: Mapping[str, int]
    wired: Mapping[str, frozenset[str]]

    def lamp_looks(self, step: Step, variant: FaultVariant | None) -> Mapping[str, Shown]:
        """Tell how each lamp of a step looks with this fault, or with none, by its housing."""
        drawn_as: dict[str, Shown] = dict(step.expect)
        for housing in self._known(step):
            look, _ = self._look(step, housing, variant)
            drawn_as[housing] = _drawn_look(look, step.expect[housing])
        return drawn_as

    def is_plain(self, variant: FaultVariant) -> bool:
        """Tell whether this fault changes the look of a numbered lamp, and all looks are plain."""
        any_differs = False
        for step in self.plan.steps:
            for housing in self._known(step):
                look, agreeing = self._look(step, housing, variant)
                usual, _ = self._look(step, housing, None)
                if agreeing < _PLAIN or look in _UNSHOWN:
                    return False
                numbered = any(item.id == housing for item in step.items)
                any_differs = any_differs or (look != usual and numbered)
        return any_differs

    def _known(self, step: Step) -> list[str]:
        """Return the housings of a step whose look depends on the network alone."""
        if step.id not in self.setting:
            return []
        # The ABS lamp may light by its control unit, which is no part of the network.
        return [
            housing
            for housing, look in step.expect.items()
            if housing in self.housing_looks.housings
            and (look != "dark") == (housing in self.wired[step.id])
        ]

    def _look(
        self, step: Step, housing: str, variant: FaultVariant | None
    ) -> tuple[LampLook, float]:
        """Return how it looks to most, and to what share of eyes."""
        at = len(self.variants) if variant is None else self.variants.index(variant)
        shares = self.housing_looks.shares[
            at, self.setting[step.id], self.housing_looks.housings.index(housing)
        ].copy()
        shares[LAMP_LOOKS.index("lit")] += shares[_RATES].sum()
        shares[_RATES] = 0.0
        most = int(np.argmax(shares))
        return LAMP_LOOKS[most], float(shares[most])


def study_lamps(plan: Plan, study: Study) -> SeenLamps:
    """Work out how the lamps of a plan's vehicle look with every fault of its wiring."""
    steps = [step for step in plan.steps if step.kind == "lamp"]
    settings = {step.id: lit_circuits(step, study) for step in steps}
    different = list(dict.fromkeys(settings.values()))
    predictions = predict(study.network, different)
    return SeenLamps(
        plan=plan,
        variants=predictions.variants,
        housing_looks=predict_housing_looks(predictions),
        setting={id_: different.index(setting) for id_, setting in settings.items()},
        wired={
            id_: frozenset(
                load.housing for load in study.network.loads if load.circuit in setting.on
            )
            for id_, setting in settings.items()
        },
    )


def _drawn_look(look: LampLook, expected: Shown) -> Shown:
    """Return how a look is drawn; what is as it should be looks as the step says."""
    match look:
        case "lit":
            return "steady" if expected == "dark" else expected
        case "dim":
            return "dim_flashing" if expected == "flashing" else "dim"
        case "pulsing":
            return "flashing"
        case "steady":
            return "steady"
        case _:
            return "dark"
