"""Who is let in: only paired devices, and without a key only this machine.

The gate stands around the whole web app, so that a route that is added later is behind it. What it
lets through and why stands at the head of `gate`; `admission` decides, `pairing` holds the key.
"""
