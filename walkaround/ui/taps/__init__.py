"""Screens: taps."""
