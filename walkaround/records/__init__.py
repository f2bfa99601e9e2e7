"""Walks on disk: saved event by event, read, listed, exported.

One TinyDB file per walk is the only truth, whole and forced to the disk with each answer; a list of
them is kept beside it so that lists are quick, and made anew whenever it does not fit. `OpenWalks`
is where a tap becomes a saved event.
"""
