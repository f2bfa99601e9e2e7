"""Access control: only paired devices are let in, and without a key only this machine.

The gate wraps the whole web app, so that every route is behind it, also one added later. The module
`gate` says what is let through and why; `admission` decides, `pairing` holds the key.
"""
