"""Screens: drawn."""
