"""What a tap does: it becomes an event of the walk, is saved, and only then shown and said.

Screens hand their taps in here, so that what a tap means does not depend on where it was drawn.
"""
