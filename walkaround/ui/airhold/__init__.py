"""Screens: airhold."""
