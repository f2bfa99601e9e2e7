"""Screens: page."""
