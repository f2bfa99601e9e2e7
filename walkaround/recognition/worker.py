"""The program of the hearing process: sound in, what was most likely said out.

It runs by itself (``python -m walkaround.recognition.worker``), since a model may crash or hang,
and a process can be ended. It reads `frames` from stdin. Once something was said during a press,
which ends the press, it writes a line of JSON to stdout: ``{"press", "heard"}``. It writes ``{}``
once it is ready, and ends at the end of its input. Sound stays in memory until it has been
scored.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from typing import Any

import numpy as np

from walkaround.recognition.frames import BEGIN, DROP, HEAD, RELEASE
from walkaround.recognition.scorer import Scorer
from walkaround.recognition.utterance import Utterance, UtteranceDetector
from walkaround.recognition.voice_detector import VoiceDetector


class Press:
    """One press of the talk button of one phone.

    Args:
        scorer: the speech model.
        voice_detector: the model that tells voices from noise.
        texts: phrases that can be said.
        spelled: words that can be said in any sequence, such as digits; empty if none can.
    """

    def __init__(
        self,
        scorer: Scorer,
        voice_detector: VoiceDetector,
        texts: Sequence[str],
        spelled: Sequence[str],
    ) -> None:
        self._scorer = scorer
        self._texts = texts
        self._spelled = spelled
        self._detector: UtteranceDetector | None = None
        self._is_voice = voice_detector.new_stream()

    def feed(self, samples: np.ndarray) -> dict[str, Any] | None:
        """Add samples from -1 to 1, first those from before the press.

        Returns:
            The fields of `HeardText` once the utterance is over, else None.
        """
        if self._detector is None:
            self._detector = UtteranceDetector(self._is_voice, samples)
            return None
        utterance = self._detector.feed(samples)
        return None if utterance is None else self._scored(utterance)

    def release(self) -> None:
        """Note that the button was released."""
        if self._detector is not None:
            self._detector.release()

    def _scored(self, utterance: Utterance) -> dict[str, Any]:
        if utterance.sound is None:
            return {"seconds": utterance.seconds}
        hidden = self._scorer.encode(utterance.sound)
        _, freely = self._scorer.transcribe(hidden)
        likelihoods = self._scorer.score(hidden, self._texts)
        ranked = [
            (*likelihood, text) for likelihood, text in zip(likelihoods, self._texts, strict=True)
        ]
        ranked += self._scorer.score_spelled(hidden, self._spelled) if self._spelled else []
        (best, end, text), (second, *_) = sorted(ranked, reverse=True)[:2]
        return {
            "text": text,
            "lead": best - second,
            "gap": freely - best,
            "end": end,
            "seconds": utterance.seconds,
        }


def main() -> None:
    """Run until the input ends."""
    scorer, voice_detector, presses = Scorer(), VoiceDetector(), dict[int, Press]()
    frames, output = sys.stdin.buffer, sys.stdout
    output.write("{}\n")
    output.flush()
    while len(head := frames.read(HEAD.size)) == HEAD.size:
        number, kind, length = HEAD.unpack(head)
        body = frames.read(length)
        press = presses.get(number)
        if kind == BEGIN:
            presses[number] = Press(scorer, voice_detector, **json.loads(body))
        elif kind == DROP:
            presses.pop(number, None)
        elif press is None:
            continue
        elif kind == RELEASE:
            press.release()
        else:
            samples = np.frombuffer(body, "<i2").astype(np.float32) / 32768.0
            if (heard := press.feed(samples)) is not None:
                del presses[number]
                output.write(json.dumps({"press": number, "heard": heard}) + "\n")
                output.flush()


if __name__ == "__main__":
    main()
