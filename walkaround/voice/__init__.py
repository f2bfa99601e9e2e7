"""Texts to sound."""
