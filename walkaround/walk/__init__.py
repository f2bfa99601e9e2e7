"""One walk: events in, state out, without a clock or a disk.

A walk is the list of its events; what it is now is folded from them, and nothing is changed in
place. What may happen when is a table (`transitions`).
"""
