"""Answers that are not tapped: what a press of a learnt key means, and what it never answers.

Hands at an axle are greasy and gloved, so a page-turner, a presenter or a foot switch answers too.
It is pressed without a look at the screen, perhaps by a knee: what could hurt somebody when it is
answered by mistake takes a tap.
"""
