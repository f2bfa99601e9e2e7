"""Flat line drawings of parts that are looked at or measured, for people who would rather look."""
