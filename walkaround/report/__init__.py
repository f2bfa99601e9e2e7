"""A walk for others: the page to hand over, as PDF and HTML, and the tables, as CSV and JSON lines.

What a report says is built once, in `contents` and `facts`; the writers (PDF, HTML, CSV) only
format it.
"""
