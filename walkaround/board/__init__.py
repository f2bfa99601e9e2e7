"""A shop's walks together: what is open, under way and tagged, how values went, what may go.

Nothing here reads or writes; it looks at lines and walks that it is given.
"""
