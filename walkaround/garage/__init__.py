"""Vehicles of one's own: made, changed, checked."""
