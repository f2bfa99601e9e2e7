"""The items of a step: what the eye takes for one lamp or reflector, and how it is called."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from walkaround.base.message import Message, Text, message
from walkaround.lamps.required import Lamp
from walkaround.plan.steps import Item, Look, Step
from walkaround.rules.checklist import SPOTS, Station
from walkaround.rules.limits import Provenance


def strongest(looks: Iterable[Look]) -> Look:
    """What the eye sees of a housing: a flashing lamp outshines a steady one in it."""
    seen = set(looks)
    return next(look for look in ("flashing", "steady", "dark") if look in seen)


def order(lamps: Iterable[Lamp]) -> list[str]:
    return list(dict.fromkeys(lamp.housing for lamp in lamps))


def spot_named(spot: Station) -> Message:
    """A spot in a title: "right side"."""
    return message(f"lamp-spot-{spot.replace('_', '-')}")


def _named(lamps: Sequence[Lamp]) -> Text:
    names = tuple(dict.fromkeys(lamp.name for lamp in lamps))
    return names[0] if len(names) == 1 else message("lamp-names", names=names)


def item_of(housing: str, lamps: Sequence[Lamp]) -> Item:
    return Item(
        id=housing,
        name=_named(lamps),
        kind=lamps[0].kind,
        lamps=tuple(lamp.id for lamp in lamps),
        required=any(lamp.required for lamp in lamps),
        what=lamps[0].what,
        why=lamps[0].why,
    )


def lit_item(housing: str, inside: Sequence[Lamp], look_of: Mapping[str, Look]) -> Item:
    """What is lit in a housing; a signal that flashes over a steady lamp is told as that."""
    flashing = [lamp for lamp in inside if look_of[lamp.id] == "flashing"]
    steady = [lamp for lamp in inside if look_of[lamp.id] == "steady"]
    item = item_of(housing, [*flashing, *steady])
    if not (flashing and steady):
        return item
    name = message("lamp-over-steady", flashing=_named(flashing), steady=_named(steady))
    return item.model_copy(update={"name": name})


def provenance(lamps: Iterable[Lamp]) -> Provenance:
    return "read" if all(lamp.provenance == "read" for lamp in lamps) else "memory"


def reflector_steps(reflectors: Sequence[Lamp]) -> Iterator[Step]:
    """Reflectors need no switch: they are looked at in the first round."""
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
                    item_of(housing, [x for x in here if x.housing == housing])
                    for housing in order(here)
                ),
                source="; ".join(dict.fromkeys(r.source for r in here)),
                provenance=provenance(here),
            )
