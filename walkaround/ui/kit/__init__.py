"""Screens: kit."""
