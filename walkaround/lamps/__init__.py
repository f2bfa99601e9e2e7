"""Lamps, circuits, connectors."""
