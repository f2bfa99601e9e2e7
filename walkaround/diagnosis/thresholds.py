"""How people differ: the share of them for whom something is above where they notice it."""

from __future__ import annotations

import numpy as np

from walkaround.diagnosis.ranking import Floats


def share_above(sds: Floats) -> Floats:
    """Return the share of people for whom a thing is above an edge on which they differ normally.

    The normal distribution in the approximation 1/(1 + exp(-1.5976 z - 0.07056 z^3)), which is
    less than 0.0002 off.

    Args:
        sds: how far above the mean of their edges it is, in standard deviations.
    """
    z = np.clip(sds, -8, 8)
    return np.asarray(1 / (1 + np.exp(-1.5976 * z - 0.07056 * z**3)))
