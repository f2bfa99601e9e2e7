"""What one open page has: its view, its device, its sound, sheets, and a guard against failures.

`flet_pages` alone patches Flet, so that an upgrade has one place to look at.
"""
