"""The disk: files written so that a power cut cannot tear them, paths, the log, secrets.

All that touches the data folder goes through here, or through what `records` and `library` build
on it, so that what to do about a full, broken or forbidden disk is said in one place.
"""
