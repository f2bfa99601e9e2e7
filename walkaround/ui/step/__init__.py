"""The screen of one step of a walk: what to do, what to see, and the answers to tap.

Each step has answer buttons of its own, so that a second tap meets a button that is gone.
"""
