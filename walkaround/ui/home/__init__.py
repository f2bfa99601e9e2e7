"""The screens outside of a walk: the start, records, settings, and pairing a device."""
