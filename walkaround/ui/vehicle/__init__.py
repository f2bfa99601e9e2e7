"""Screens: vehicle."""
