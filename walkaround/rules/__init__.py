"""Checklists: rules as data, with their sources."""
