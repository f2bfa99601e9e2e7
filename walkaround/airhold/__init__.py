"""Air holds: the readings of a gauge in, the leak rate with its bounds and a verdict out.

A minute on a coarse gauge often cannot tell a leak within the limit from one above it, so each
result says how sure it is. Nothing here knows a vehicle, a clock or a screen. From outside only
`assess` is needed.
"""

from walkaround.airhold.verdict import Assessment as Assessment
from walkaround.airhold.verdict import assess as assess
