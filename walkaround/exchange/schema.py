"""The published JSON Schema of a record file's entries, `checklists/record_file.schema.json`.

It is made from the models that read the file, so that the two agree:
`python -m walkaround.exchange.schema > checklists/record_file.schema.json` writes it again.
"""

from __future__ import annotations

import json
from typing import Annotated, Any

from pydantic import Field, TypeAdapter

from walkaround.exchange.record_file import FORM, VERSION
from walkaround.exchange.shop_key import LONGEST_SHOP_NAME
from walkaround.exchange.signatures import MOST_SIGNATURES
from walkaround.walk.events import Event

_HEX_32, _HEX_64 = {"type": "string", "pattern": "^[0-9a-f]{64}$"}, {"pattern": "^[0-9a-f]{128}$"}
_SHOP = {"type": "string", "maxLength": LONGEST_SHOP_NAME}


def record_file_schema() -> dict[str, Any]:
    """Return the schema of a line of `walks.ndjson`; its definitions have the other entries."""
    event = TypeAdapter(Annotated[Event, Field(discriminator="kind")])
    schema = event.json_schema(ref_template="#/$defs/{model}")
    definitions = schema.pop("$defs")
    signed = {"shop": _SHOP, "key": _HEX_32, "signature": {"type": "string", **_HEX_64}}
    entries = {"entries": {"type": "integer", "minimum": 1}, "tip": _HEX_32}
    walk_id = {"type": "string", "pattern": "^[0-9]{8}_[0-9]{6}_[0-9a-f]{6}$"}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"{FORM}, version {VERSION}: a line of walks.ndjson",
        **_object(
            walk=walk_id,
            events={"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/Event"}},
            signed={
                "type": "array",
                "maxItems": MOST_SIGNATURES,
                "items": {"$ref": "#/$defs/Signature"},
            },
        ),
        "$defs": {
            "Event": schema,
            "Signature": _object(**signed, **entries),
            "walkaround.json": _object(form={"const": FORM}, version={"const": VERSION}),
            "signature.json": _object(**signed, before=_HEX_32),
            **definitions,
        },
    }


def _object(**properties: object) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": [*properties],
        "properties": properties,
    }


if __name__ == "__main__":
    print(json.dumps(record_file_schema(), ensure_ascii=False, indent=1))
