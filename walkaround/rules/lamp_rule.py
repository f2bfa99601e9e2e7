"""A row of a lamp table: which vehicles must have these lamps, where, and how footnotes vary it."""

from __future__ import annotations

from typing import Annotated, Any, Literal, get_args

from pydantic import Field, model_validator

from walkaround.base.provenance import Sourced, together
from walkaround.base.toml_model import Flag, Id, Number
from walkaround.rules.conditions import When

LampKind = Literal[
    "headlamp",
    "parking",
    "turn",
    "tail",
    "stop",
    "clearance",
    "identification",
    "side_marker",
    "licence_plate",
    "backup",
    "abs",
    "blackout_marker",
    "blackout_stop",
    "blackout_drive",
    "other",
    "reflector",
    "tape",
]
LAMP_KINDS: tuple[LampKind, ...] = get_args(LampKind)
Spread = Literal["pair", "three", "left", "right", "centre"]
# How many lamps each spread places.
SPREADS: dict[Spread, int] = {"pair": 2, "three": 3, "left": 1, "right": 1, "centre": 1}
End = Literal["front", "rear", "side"]
# Lamps that repeat along a side are no closer than this; the UN's are 3 m apart.
LEAST_GAP_MM = 3000.0
Share = Annotated[Number, Field(ge=0, le=1)]


class Variant(When, Sourced):
    """A variant of a row of a lamp table for some vehicles, such as a footnote has it.

    What is left out stays as in the row; quantity 0 means that the row asks nothing of them. Every
    variant that holds counts, a later one after an earlier one. Its source is told with the row's.
    """

    quantity: Annotated[int, Field(ge=0, strict=True)] | None = None
    end: End | None = None
    along: Share | None = None
    across: Share | None = None
    spread: Spread | None = None
    front_gap_mm: Annotated[Number, Field(ge=LEAST_GAP_MM)] | None = None
    required: Flag | None = None
    what: str | None = None
    height: str | None = None

    def changes(self) -> dict[str, object]:
        """Return the values of the row that it changes, by name, without where it comes from."""
        names = self.model_fields_set - When.model_fields.keys() - Sourced.model_fields.keys()
        return {name: getattr(self, name) for name in names}


class LampRule(When, Sourced):
    """One row of a lamp table: which vehicles must have these lamps, where, and why.

    `along` runs from 0 (front) to 1 (rear) for lamps on the sides, `across` is the share of the
    half width for pairs at an end. With `gap_mm` the row repeats along the sides: the first at
    most that far from the front, or `front_gap_mm`, each at most that far from the next, the last
    one `rear_gap_mm` from the rear. `circuit` is what the lamps hang on where their kind does not
    tell. `said` is the name as it is said among other lamps.
    """

    id: Id
    kind: LampKind
    name: str
    said: str = ""
    colour: tuple[str, ...]
    quantity: int = Field(ge=1, strict=True)
    end: End
    along: Share = 0.5
    across: Share = 1.0
    spread: Spread
    gap_mm: Annotated[Number, Field(ge=LEAST_GAP_MM)] | None = None
    front_gap_mm: Annotated[Number, Field(ge=LEAST_GAP_MM)] | None = None
    rear_gap_mm: Annotated[Number, Field(ge=0)] = 0.0
    circuit: Annotated[str, Field(pattern=r"^[a-z0-9_]*$")] = ""
    required: Flag = True
    what: str
    why: str
    height: str
    variants: tuple[Variant, ...] = Field(default=(), validation_alias="variant")

    @model_validator(mode="before")
    @classmethod
    def _without_plural(cls, row: Any) -> Any:
        """Leave out a key that was needed once, so that files that have it go on being read."""
        return {k: v for k, v in row.items() if k != "plural"} if isinstance(row, dict) else row

    @property
    def reflector(self) -> bool:
        """Whether it shines by what falls on it: looked at, never switched."""
        return self.kind in ("reflector", "tape")

    def varied(self, variant: Variant) -> LampRule:
        """Return the row as the variant has it; not for one with quantity 0."""
        read = (self.provenance, variant.provenance)
        source = {
            "source": f"{self.source}; {variant.source}",
            "provenance": next((p for p in read if p != "read"), "read"),
            "doubt": together((self.doubt, variant.doubt)),
        }
        return self.model_copy(update=variant.changes() | source)
