"""Speech recognition on this computer, without a network: one process for all phones.

It scores speech against a few phrases; `spoken` decides what they mean and which of them count
now. No sound is stored: it is dropped once it has been scored.
"""
