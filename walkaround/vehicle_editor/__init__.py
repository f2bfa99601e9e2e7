"""Vehicles of one's own: made, changed and checked before they are kept.

A vehicle being made is a `Vehicle` all along; what is asked of it is a table (`fields`), and what
a choice changes follows from it (`edit`). They are saved by `library`.
"""
