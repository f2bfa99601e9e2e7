"""From a text on the screen to a sound file that a phone can play.

Engines hang and crash, so they run in a process of their own (`worker`); whatever happens to it
costs one prompt, never the walk.
"""
