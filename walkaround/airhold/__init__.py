"""Air holds: readings to rate, bounds and verdict."""

from walkaround.airhold.verdict import Assessment as Assessment
from walkaround.airhold.verdict import assess as assess
