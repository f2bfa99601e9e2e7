"""Screens: walk."""
