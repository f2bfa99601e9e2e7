"""What can be done next about lost air, and what would come out of it with each leak.

All of it is done from outside the wheels, away from rods and slack adjusters: listen, brush soap
on, plug a line whose source is shut and bled, hold once more with the parking brakes set. Nothing
asks for a hand where air or a spring could move a brake, nor for anybody underneath.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal, get_args

import numpy as np

from walkaround.diagnosis.figures import FigureTable
from walkaround.diagnosis.ranking import Flags, Floats
from walkaround.diagnosis.thresholds import share_above
from walkaround.leaks.plumbing import Source
from walkaround.leaks.tables import BRAKE_STATES, BrakeState
from walkaround.leaks.variants import NOTHING, LeakVariants

Chances = Floats | Flags
AirTrialKind = Literal["listen", "soap", "plug", "hold"]

CHAMBER, HOSE_END = "chamber", "hose_end"
"""A chamber, or the hose at one, without saying at which wheel."""
_AT_WHEELS = {"chamber_axle": CHAMBER, "hose_axle": HOSE_END}
_UNSOAPED = frozenset({NOTHING, "tow_unit", "trailer"})
"""Where soap finds nothing: it is no place but a vehicle."""
_SEEN_TO_FALL_PSI = 1.0
"""A needle that loses this much a minute is seen to fall by half of the people."""


@dataclass(frozen=True, slots=True)
class AirTrial:
    """One thing to do.

    Attributes:
        brakes: how they stand meanwhile; None where that does not matter.
        place: where; of `plug` which line, empty where that does not matter.
        chances: of each outcome with each variant, the last being a vehicle without a leak, with
            as many rows as any trial of the vehicle has; those beyond its own outcomes are 0.
    """

    what: AirTrialKind
    brakes: BrakeState | None
    place: str
    outcomes: tuple[str, ...]
    minutes: float
    chances: Floats

    @property
    def id(self) -> str:
        """What it is called in case files and walks: `soap:applied:chamber_axle_1_left`."""
        return ":".join([self.what, *filter(None, (self.brakes, self.place))])


def is_of_air(trial_id: str) -> bool:
    """Tell whether a trial of this id is about air, and not about lamps."""
    return trial_id.partition(":")[0] in get_args(AirTrialKind)


def general_place(place: str) -> str:
    """Give a place without the wheel end that it is at."""
    return next((word for start, word in _AT_WHEELS.items() if place.startswith(start)), place)


def heard_at(variants: LeakVariants, brakes: BrakeState, place_told: str) -> Floats:
    """Return the chance that this place is told of, [variant].

    Args:
        variants: of the vehicle.
        brakes: how they stood.
        place_told: a place, or one in general.
    """
    at = [place_told in (place, general_place(place)) for place in variants.places]
    return np.asarray(variants.told_chances[brakes][at].sum(axis=0))


def told_places(variants: LeakVariants, brakes: BrakeState | None = None) -> tuple[str, ...]:
    """List the places that may be told of, wheel ends in general; `NOTHING` is the last.

    With `brakes` only those at which something can leak while they stand so.
    """
    leaking = set(variants.place_of[brakes]) if brakes else range(len(variants.places))
    places = [place for at, place in enumerate(variants.places) if at in leaking]
    return tuple(dict.fromkeys(general_place(place) for place in places))


def air_trials_of(
    variants: LeakVariants, source: Source, figures: FigureTable
) -> tuple[AirTrial, ...]:
    """List everything that can be done at a vehicle."""
    trials = list(_trials(variants, source, figures))
    most = max(len(trial.outcomes) for trial in trials)
    return tuple(
        replace(trial, chances=np.pad(trial.chances, ((0, most - len(trial.outcomes)), (0, 0))))
        for trial in trials
    )


def _trials(variants: LeakVariants, source: Source, figures: FigureTable) -> Iterator[AirTrial]:
    def air_trial(
        what: AirTrialKind, brakes: BrakeState | None, place: str, words: str, first: Chances
    ) -> AirTrial:
        """A trial of two outcomes, the first of which comes out with this chance."""
        error = figures["test_error"]
        chance = first.astype(float) * (1 - 2 * error) + error
        both = np.array([chance, 1 - chance])
        minutes = figures[f"minutes_{what}"]
        return AirTrial(what, brakes, place, tuple(words.split()), minutes, both)

    def of_parts(kind: str, *places: str) -> Flags:
        return np.array(
            [*(part.kind == kind and part.place in places for part in variants.parts), False]
        )

    for brakes in BRAKE_STATES:
        places = told_places(variants, brakes)
        chances = np.array([heard_at(variants, brakes, place) for place in places])
        minutes = figures["minutes_listen"]
        minutes += figures["minutes_dump"] if brakes == "dumped" else 0.0
        yield AirTrial("listen", brakes, "", places, minutes, chances)
        if brakes == "dumped":
            continue
        bubbles = variants.flows[brakes] >= figures["soap_from"]
        for place in variants.places:
            here = variants.leaks_at(brakes, place) & bubbles
            if place not in _UNSOAPED and here.any():
                yield air_trial("soap", brakes, place, "bubbles none", here)
    if source == "shop":
        # What still falls when the line ends at its plug is lost ahead of the trailer.
        for place in ("red", "blue"):
            yield air_trial("plug", None, place, "falls stands", of_parts("test_hose", place))
    else:
        still = np.log(np.maximum(variants.rates["dumped"].max(axis=0), 1e-9))
        width = figures["model_error"]
        falls = share_above((still - np.log(_SEEN_TO_FALL_PSI)) / width)
        yield air_trial("hold", "dumped", "", "falls stands", falls)
    if "rear_gladhands" in variants.places:
        cocks = of_parts("rear_cock", "red", "blue")
        yield air_trial("plug", None, "rear", "stands falls", cocks)
