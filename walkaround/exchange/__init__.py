"""Walks handed on as a file, checked, and brought together from several data folders.

A record file is a zip archive of walks with the digest chains of their events, their photos, and
the signatures of the shops that made and shared them; DEVELOPERS.md has its form. Bringing walks
together is a union: the order in which files come, and how often, changes nothing. Where two
copies of one walk went on differently, both stay.
"""
