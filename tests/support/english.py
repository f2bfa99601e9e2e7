"""The app's English, for tests of what is shown and said."""

from __future__ import annotations

from walkaround.bootstrap import read_language

ENGLISH = read_language()
