"""Answers by key instead of by tap: what a press of a learned key does, and what needs a tap.

Hands at an axle are greasy and gloved, so a page-turner, a presenter or a foot switch can answer
too. It may be pressed without a look at the screen, or by a knee, so a step whose wrong answer
could hurt somebody still takes a tap.
"""
