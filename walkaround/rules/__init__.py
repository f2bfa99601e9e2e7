"""Checklists: published rules as data, each row with its source, and the checks on them.

A rule is a row of a file wherever it can be one. The models say what a file may hold, `conditions`
when a row holds for a vehicle, and the checks find what the shape of a file cannot show.
"""
