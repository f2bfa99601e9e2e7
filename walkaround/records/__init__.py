"""Walks on disk: one file each, listed, recovered after damage, exported.

A walk's file is the only truth; the list of walks can be made anew from the files at any time. No
other package imports tinydb.
"""
