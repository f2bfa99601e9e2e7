"""Screens of a lamp cable's and a tow vehicle's socket's check."""
