"""The process that hears: sound of the phones that talk now in, what was likely said out.

It runs by itself (``python -m walkaround.ears.worker``), since a model may crash or hang, and a
process can be ended. On stdin come `frames`. On stdout goes a line of JSON once something was said
at a press, which ends that: ``{"press", "heard"}``. It says ``{}`` once it is ready. End of input
ends it. Sound is kept until it has been scored, and nowhere else.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from typing import Any

import numpy as np

from walkaround.ears.catching import Catcher, Caught
from walkaround.ears.frames import BEGIN, DROP, HEAD, RELEASE
from walkaround.ears.scorer import Scorer
from walkaround.ears.voices import Voices


class Phone:
    """What one phone says at one press.

    Args:
        scorer: the model of speech.
        voices: the model that tells voices from noise.
        texts: what can be said.
        spelled: words of which any row can be said, such as digits; none if not.
    """

    def __init__(
        self, scorer: Scorer, voices: Voices, texts: Sequence[str], spelled: Sequence[str]
    ) -> None:
        self._scorer = scorer
        self._texts = texts
        self._spelled = spelled
        self._catcher: Catcher | None = None
        self._is_voice = voices.follow()

    def feed(self, samples: np.ndarray) -> dict[str, Any] | None:
        """Take samples from -1 to 1, first those from before the press; tell what was said."""
        if self._catcher is None:
            self._catcher = Catcher(self._is_voice, samples)
            return None
        caught = self._catcher.feed(samples)
        return None if caught is None else self._judged(caught)

    def release(self) -> None:
        """The button was let go."""
        if self._catcher is not None:
            self._catcher.release()

    def _judged(self, caught: Caught) -> dict[str, Any]:
        if caught.sound is None:
            return {"seconds": caught.seconds}
        hidden = self._scorer.heard(caught.sound)
        _, freely = self._scorer.freely(hidden)
        each = self._scorer.each(hidden, self._texts)
        ranked = [(*found, text) for found, text in zip(each, self._texts, strict=True)]
        ranked += self._scorer.spelled(hidden, self._spelled) if self._spelled else []
        (best, end, text), (second, *_) = sorted(ranked, reverse=True)[:2]
        return {
            "text": text,
            "lead": best - second,
            "gap": freely - best,
            "end": end,
            "seconds": caught.seconds,
        }


def main() -> None:
    """Hear until the input ends."""
    scorer, voices, phones = Scorer(), Voices(), dict[int, Phone]()
    frames, output = sys.stdin.buffer, sys.stdout
    output.write("{}\n")
    output.flush()
    while len(head := frames.read(HEAD.size)) == HEAD.size:
        number, kind, length = HEAD.unpack(head)
        body = frames.read(length)
        phone = phones.get(number)
        if kind == BEGIN:
            phones[number] = Phone(scorer, voices, **json.loads(body))
        elif kind == DROP:
            phones.pop(number, None)
        elif phone is None:
            continue
        elif kind == RELEASE:
            phone.release()
        else:
            samples = np.frombuffer(body, "<i2").astype(np.float32) / 32768.0
            if (heard := phone.feed(samples)) is not None:
                del phones[number]
                output.write(json.dumps({"press": number, "heard": heard}) + "\n")
                output.flush()


if __name__ == "__main__":
    main()
