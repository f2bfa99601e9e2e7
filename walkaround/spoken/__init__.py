"""Spoken answers: what can be said at a step, what it means, and when it is taken as heard.

Whoever talks has their hands at a wheel and their eyes off the screen. So few things can be said,
each a phrase of several words that nobody says by chance, and nothing that could hurt somebody if
it were answered by mistake.
"""
