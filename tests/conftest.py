"""What holds for all tests: how fast a machine is decides none of them."""

from hypothesis import settings

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
