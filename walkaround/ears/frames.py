"""What goes to the process that hears: frames, each a head and as many bytes as that says."""

from __future__ import annotations

import struct

HEAD = struct.Struct("<IBI")
"""The number of the press, the kind of frame, the length of what follows."""
BEGIN, SOUND, RELEASE, DROP = range(4)
"""A press begins, with JSON; sound of it, 16 bits a sample; the button is let go; forget it."""
HZ = 16_000
"""Samples a second."""
BYTES_A_SECOND = 2 * HZ
