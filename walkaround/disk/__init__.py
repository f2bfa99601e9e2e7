"""The disk: files that survive a power cut, paths, the log, secrets.

All access to the data folder goes through this package, or through `records` and `library`, which
use it, so that a full, broken or read-only disk is handled in one place.
"""
