"""A walk for others: the page to hand over, as PDF and HTML, and the tables, as CSV and JSON lines.

What is told is built once, in `contents` and `facts`; what writes it decides nothing.
"""
