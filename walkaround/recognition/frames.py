"""The frames sent to the hearing process: each is a header and as many bytes as the header says."""

from __future__ import annotations

import struct

HEAD = struct.Struct("<IBI")
"""The number of the press, the kind of frame, the length of its body in bytes."""
BEGIN, SOUND, RELEASE, DROP = range(4)
"""A press begins, with JSON; its sound, 16 bits a sample; the button is released; forget it."""
HZ = 16_000
"""Samples a second."""
BYTES_A_SECOND = 2 * HZ
