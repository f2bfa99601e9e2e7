"""The board of a shop: open defects, walks under way, tags, history, search and retention.

Except for `defect_details`, nothing here reads or writes; it computes from given lines and walks.
"""
