"""Hearing spoken answers on this computer, without a network: one process for all phones.

It tells how near what was said comes to each of a few phrases. What they mean, and which of them
count now, is decided in `spoken`. No sound is kept: it is forgotten with the answer to it.
"""
