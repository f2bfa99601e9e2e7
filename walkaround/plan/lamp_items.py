"""The items of a step: what the eye takes for one lamp or reflector, and how it is called."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import reduce
from typing import Literal, get_args

from walkaround.base.message import Message, Text, message
from walkaround.base.provenance import together
from walkaround.lamps.names import lamps_named
from walkaround.lamps.required_lamps import Lamp
from walkaround.plan.steps import ANYTHING_ELSE, OTHERS, Item, Look, Step
from walkaround.rules.checklist import SPOTS, Spot, Station
from walkaround.rules.limits import Provenance


def strongest_look(looks: Iterable[Look]) -> Look:
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
        name=lamps_named(lamps),
        said=_shared_housing_name(lamps),
        side=lamps[0].side,
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
    if not flashing:
        return item
    signal = _signal_name(flashing)
    if not steady:
        return item.model_copy(update={"said": signal})
    name = message("lamp-over-steady", flashing=lamps_named(flashing), steady=lamps_named(steady))
    below = _shared_housing_name(steady)
    over = message("lamp-said-over", flashing=signal, steady=below) if signal and below else ""
    return item.model_copy(update={"name": name, "said": over})


def other_lamps_item(dark: Iterable[bool]) -> list[Item]:
    """Make the item of every lamp at a spot that ought to be dark, if there is one."""
    return [Item(id=OTHERS, name=message("lamp-any-other"), kind="others")] if any(dark) else []


def provenance_of(lamps: Iterable[Lamp]) -> Provenance:
    """Say whether the rules of all these lamps were read, or some are from memory."""
    return "read" if all(lamp.provenance == "read" for lamp in lamps) else "memory"


def with_what_else(looks: Sequence[Step], reflectors: Sequence[Lamp]) -> Iterator[Step]:
    """Add to the last look at each spot its reflectors, and whatever else is seen there.

    The ABS lamp is watched for a moment, and lamps that nobody requires may all be answered not
    fitted, so rather not in such a look. Reflectors where nothing is switched have a step of their
    own, in the order of the spots.
    """
    at_lamps = [step for step in looks if step.kind == "lamp" and step.spot in SPOTS]
    last = {step.spot: step.id for step in sorted(at_lamps, key=_suits_others)}
    alone = [spot for spot in SPOTS if spot not in last and _at(spot, reflectors)]
    for step in looks:
        while alone and step.round == 1 and step.spot in SPOTS[SPOTS.index(alone[0]) :]:
            yield _reflector_step(alone[0], _at(alone.pop(0), reflectors))
        if last.get(step.spot) != step.id:
            yield step
            continue
        here = [reflector_step for reflector_step in reflectors if reflector_step.spot == step.spot]
        # What no mark stands for comes last: the others are numbered as the picture numbers them.
        placed_items = [item for item in step.items if item.id != OTHERS]
        dark_others = [item for item in step.items if item.id == OTHERS]
        added = {
            "items": (*placed_items, *_reflector_items(here), *dark_others, _anything_else()),
            "source": together([step.source, *(reflector_step.source for reflector_step in here)]),
            "provenance": step.provenance if provenance_of(here) == "read" else "memory",
            "doubt": together([step.doubt, *(reflector_step.doubt for reflector_step in here)]),
        }
        yield step.model_copy(update=added)
    yield from (_reflector_step(spot, _at(spot, reflectors)) for spot in alone)


def _is_abs(step: Step) -> bool:
    return any(item.kind == "abs" and step.expect.get(item.id) != "dark" for item in step.items)


def _suits_others(step: Step) -> tuple[bool, bool]:
    shining = [item for item in step.items if step.expect.get(item.id, "dark") != "dark"]
    return not _is_abs(step), any(item.required for item in shining)


def _at(spot: Spot, reflectors: Iterable[Lamp]) -> list[Lamp]:
    return [reflector for reflector in reflectors if reflector.spot == spot]


def _reflector_step(spot: Spot, here: Sequence[Lamp]) -> Step:
    return Step(
        id=f"reflectors_{spot}",
        part="lamps",
        kind="look",
        title=message("lamp-step-reflectors", spot=spot_named(spot)),
        spot=spot,
        round=1,
        power=True,
        items=(*_reflector_items(here), _anything_else()),
        source=together(reflector.source for reflector in here),
        provenance=provenance_of(here),
        doubt=together(reflector.doubt for reflector in here),
    )


def _reflector_items(here: Sequence[Lamp]) -> list[Item]:
    return [
        item_of([each for each in here if each.housing == housing]) for housing in housings_of(here)
    ]


def _anything_else() -> Item:
    return Item(id=ANYTHING_ELSE, name=message("lamp-anything-else"), kind="anything_else")


def _shared_housing_name(lamps: Iterable[Lamp]) -> Text:
    """Name lamps in one housing: "tail and stop lamp"; empty where one has no name."""
    names = tuple(dict.fromkeys(lamp.said for lamp in lamps))
    if not all(names):
        return ""
    return names[0] if len(names) == 1 else message("lamp-said-together", names=names)


def _signal_name(lamps: Iterable[Lamp]) -> Text:
    """Name lamps that flash in one housing: "stop/turn"."""
    names = list(dict.fromkeys(lamp.said for lamp in lamps))
    if not all(names):
        return ""
    return reduce(lambda one, other: message("lamp-said-signal", one=one, other=other), names)


EndRow = Literal["high", "lamps", "low"]
END_ROWS: tuple[EndRow, ...] = get_args(EndRow)
"""How high things hang at an end of a vehicle, from the top (49 CFR 393.11 Table 1, heights)."""
_HIGH = frozenset({"clearance", "identification"})
_LOW = frozenset({"reflector", "licence_plate", "tape"})


def end_row(kind: str, mark_id: str) -> EndRow:
    """Tell how high a lamp, reflector or strip of tape hangs, by its kind and its mark's id."""
    if kind in _HIGH or "high" in mark_id.split("_"):
        return "high"
    return "low" if kind in _LOW else "lamps"


def in_seeing_order(step: Step, places: Mapping[str, Lamp]) -> Step:
    """Order what is looked at as it is seen from there: row by row, from left to right.

    Args:
        step: a step at lamps; what has no place stays behind the rest.
        places: a lamp or reflector of each housing, by the housing's id.
    """

    def seen_at(item: Item) -> tuple[bool, int, float]:
        mark = places.get(item.place)
        if mark is None:
            return True, 0, 0.0
        if step.spot in ("front", "rear"):
            row = END_ROWS.index(end_row(item.kind, item.place))
            return False, row, mark.y_mm if step.spot == "rear" else -mark.y_mm
        return False, 0, mark.x_mm if step.spot == "left_side" else -mark.x_mm

    return step.model_copy(update={"items": tuple(sorted(step.items, key=seen_at))})
