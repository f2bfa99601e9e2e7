"""Spoken answers: what can be said at a step, what it means, and when it is clear enough.

People who answer by voice have their hands at a wheel and their eyes off the screen. So only a few
things can be said, each a phrase of several words that nobody says by chance, and nothing that
could hurt somebody if it were answered by mistake.
"""
