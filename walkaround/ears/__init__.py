"""Hearing spoken answers on this computer, without a network: one process for all phones.

It scores what was said against each of a few phrases; `spoken` decides what they mean and which of
them count now. No sound is kept: it is dropped once it is scored.
"""
