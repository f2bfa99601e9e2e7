"""The items of a step: what the eye takes for one lamp or reflector, and how it is called."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from walkaround.base.message import Message, Text, message
from walkaround.lamps.required import Lamp
from walkaround.plan.steps import Item, Look, Step
from walkaround.rules.checklist import SPOTS, Station
from walkaround.rules.limits import Provenance


def strongest(looks: Iterable[Look]) -> Look:
    """Say what the eye sees of a housing: a flashing lamp outshines a steady one in it."""
    seen = set(looks)
    return next(look for look in ("flashing", "steady", "dark") if look in seen)


def housings_of(lamps: Iterable[Lamp]) -> list[str]:
    """List the ids of the housings that hold these lamps, in their order."""
    return list(dict.fromkeys(lamp.housing for lamp in lamps))


def spot_named(spot: Station) -> Message:
    """Name a spot as a title ends: "right side"."""
    return message(f"lamp-spot-{spot.replace('_', '-')}")


def item_of(lamps: Sequence[Lamp]) -> Item:
    """Make the item of one housing that these lamps are in."""
    return Item(
        id=lamps[0].housing,
        name=_named(lamps),
        kind=lamps[0].kind,
        lamps=tuple(lamp.id for lamp in lamps),
        required=any(lamp.required for lamp in lamps),
        what=lamps[0].what,
        why=lamps[0].why,
    )


def lit_item(lamps: Sequence[Lamp], look_of: Mapping[str, Look]) -> Item:
    """Make the item of what is lit in a housing.

    A signal that flashes over a steady lamp is told as that.

    Args:
        lamps: all that are in the housing.
        look_of: how each of them looks, by its id; one at least is lit.
    """
    flashing = [lamp for lamp in lamps if look_of[lamp.id] == "flashing"]
    steady = [lamp for lamp in lamps if look_of[lamp.id] == "steady"]
    item = item_of([*flashing, *steady])
    if not (flashing and steady):
        return item
    name = message("lamp-over-steady", flashing=_named(flashing), steady=_named(steady))
    return item.model_copy(update={"name": name})


def provenance_of(lamps: Iterable[Lamp]) -> Provenance:
    """Say whether the rules of all these lamps were read, or some are from memory."""
    return "read" if all(lamp.provenance == "read" for lamp in lamps) else "memory"


def reflector_steps(reflectors: Sequence[Lamp]) -> Iterator[Step]:
    """Make a step for each spot with reflectors: no switch lights them, so in the first round."""
    for spot in SPOTS:
        here = [reflector for reflector in reflectors if reflector.spot == spot]
        if here:
            yield Step(
                id=f"reflectors_{spot}",
                part="lamps",
                kind="look",
                title=message("lamp-step-reflectors", spot=spot_named(spot)),
                spot=spot,
                round=1,
                power=True,
                items=tuple(
                    item_of([each for each in here if each.housing == housing])
                    for housing in housings_of(here)
                ),
                source="; ".join(dict.fromkeys(reflector.source for reflector in here)),
                provenance=provenance_of(here),
            )


def _named(lamps: Iterable[Lamp]) -> Text:
    names = tuple(dict.fromkeys(lamp.name for lamp in lamps))
    return names[0] if len(names) == 1 else message("lamp-names", names=names)
