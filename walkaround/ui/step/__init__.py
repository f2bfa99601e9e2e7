"""Screens: step."""
