"""Reports of a walk: the page to hand over, as PDF and HTML, and tables, as CSV and JSON lines.

The content of a report is made once, as `contents` and `facts`; the writers (PDF, HTML, CSV) only
format it.
"""
