"""Text to speech: sound files of prompts that a phone can play, and short signal sounds.

Speech engines hang and crash, so they run in a process of their own (`worker`); whatever happens to
it costs one prompt, never the walk.
"""
