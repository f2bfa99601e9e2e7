"""Walks shared as a file, verified, and merged from several data folders.

A record file is a zip archive of walks with the digest chains of their events, their photos, and
the signatures of the shops that made and shared them; DEVELOPERS.md describes its format. Merging
walks is a union: the order in which files are merged, and how often, changes nothing. Where two
copies of one walk were continued differently, both are kept.
"""
