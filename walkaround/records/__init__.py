"""Walks on disk: one file each, listed, recovered after damage, exported.

The file of a walk is its only source; the list of walks can be rebuilt from the files at any time.
No other package imports tinydb.
"""
