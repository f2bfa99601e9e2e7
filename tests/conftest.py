"""What holds for all tests: neither how fast a machine is nor chance decides any of them.

What hypothesis draws is the same in each run; `--hypothesis-profile anew` draws something else.
Messages read as English wherever a test turns them into text.
"""

from hypothesis import settings
from support.english import ENGLISH as ENGLISH

settings.register_profile("anew", deadline=None)
settings.register_profile("same", deadline=None, derandomize=True)
settings.load_profile("same")
