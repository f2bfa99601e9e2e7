"""Screens: home."""
