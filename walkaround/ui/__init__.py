"""What a phone shows: one screen a module, drawn from the state of a walk.

No rule lives here: screens show what the core decided and send it what was tapped. They save
nothing and make no path.
"""
