"""A row of a walk sealed anew, for tests that change what it says."""

from __future__ import annotations

import hashlib
import json
from typing import Any


def resealed(row: dict[str, Any], link: str) -> dict[str, Any]:
    """The row with the digest that fits it after this link: computed here, by hashlib alone."""
    body = {key: value for key, value in row.items() if key != "digest"}
    text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return {**body, "digest": hashlib.sha256(f"{link}\n{text}".encode()).hexdigest()}
