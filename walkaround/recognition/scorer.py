"""How likely it is that a sound is one of a few texts, by a small model of English speech.

The wheel `moonshine-voice` contains the model: an encoder, a decoder and the decoder's tokens. They
are read with `onnxruntime`; that package itself is never imported, since it opens a microphone and
downloads other models. The decoder only scores given texts, so that nothing else can be understood.
Its decoding without given texts tells how likely the likeliest text of all is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib.util import find_spec
from itertools import pairwise
from operator import itemgetter
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import onnxruntime

_BEGIN, _END = 1, 2
_SPECIAL = 259
"""Token ids below this are control marks and single bytes, not pieces of words."""
_SPACE = "\u2581"
_MOST_TOKENS = 24
"""No text of ours is longer; a longer one is part of a conversation."""
_AT_ONCE = 6
"""Texts that are scored together: more take more memory, fewer more time."""
_BEAM = 10
"""The width of the beam search for a sequence of words."""
_HEADS, _WIDTH = 8, 36
_LOUDNESS = 0.7


class Likelihood(NamedTuple):
    """How likely one text is, as natural logarithms of probabilities.

    Attributes:
        whole: of the text and its end.
        end: of its end alone, given the text.
    """

    whole: float
    end: float


class Scorer:
    """The model, loaded; for one thread."""

    def __init__(self) -> None:
        """Load it; raise `ModuleNotFoundError` where it is not installed."""
        spec = find_spec("moonshine_voice")
        if spec is None or spec.origin is None:
            raise ModuleNotFoundError("moonshine_voice")
        folder = Path(spec.origin).parent / "assets" / "tiny-en"
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = options.inter_op_num_threads = 1
        # Each length of sound would leave its own arena of memory behind.
        options.enable_cpu_mem_arena = False
        options.enable_mem_pattern = False

        def session(name: str) -> Any:
            return onnxruntime.InferenceSession(str(folder / name), options)

        self._encoder = session("encoder_model.ort")
        self._decoder = session("decoder_model_merged.ort")
        self._tokens = _read_tokens((folder / "tokenizer.bin").read_bytes())
        self._ids: dict[bytes, int] = {}
        for at, token in enumerate(self._tokens):
            if at >= _SPECIAL or token not in self._ids:
                self._ids[token] = at
        self._stop = self._ids[b"."]
        self._past_names = [i.name for i in self._decoder.get_inputs() if i.name.startswith("past")]
        self._output_names = [o.name for o in self._decoder.get_outputs()][1:]
        self._pieces: dict[str, list[int]] = {}

    def encode(self, sound: np.ndarray) -> np.ndarray:
        """Encode samples from -1 to 1, 16 kHz; the loudness does not matter.

        Returns:
            The encoder's hidden states, of shape (1, frames, width).
        """
        loudest = float(np.abs(sound).max(initial=0.0)) + 1e-6
        samples = (sound / loudest * _LOUDNESS).astype(np.float32)[None]
        inputs = {"input_values": samples, "attention_mask": np.ones(samples.shape, np.int64)}
        hidden: np.ndarray = self._encoder.run(None, inputs)[0]
        return hidden

    def transcribe(self, hidden: np.ndarray) -> tuple[str, float]:
        """Return the likeliest text by greedy decoding, and its log probability."""
        tokens, likely, past = list[int](), 0.0, None
        ids = np.array([[_BEGIN]])
        for _ in range(_MOST_TOKENS):
            scores, past = self._step(ids, hidden, past)
            logs = _log_probabilities(scores[:, -1])[0]
            token = int(logs.argmax())
            likely += float(logs[token])
            if token == _END:
                break
            tokens.append(token)
            ids = np.array([[token]])
        text = b"".join(self._tokens[token] for token in tokens if token > _END)
        return text.decode("utf-8", "replace").replace(_SPACE, " ").strip(), likely

    def score(self, hidden: np.ndarray, texts: Sequence[str]) -> list[Likelihood]:
        """Score each of these texts, with a full stop after it or without."""
        if len(texts) > _AT_ONCE:
            # The scores of every token at every position take much memory.
            first, others = texts[:_AT_ONCE], texts[_AT_ONCE:]
            return [*self.score(hidden, first), *self.score(hidden, others)]
        rows = [self._tokenized(text) for text in texts]
        ids = np.full((len(rows), max(map(len, rows)) + 2), _END, np.int64)
        ids[:, 0] = _BEGIN
        for row, tokens in zip(ids, rows, strict=True):
            row[1 : len(tokens) + 2] = [*tokens, self._stop]
        scores, _ = self._step(ids, np.repeat(hidden, len(rows), 0), None)
        likelihoods = list[Likelihood]()
        for row, tokens in zip(map(_log_probabilities, scores), rows, strict=True):
            length = len(tokens)
            words = sum(float(row[at, token]) for at, token in enumerate(tokens))
            stopped = row[length, self._stop] + row[length + 1, _END]
            end = float(np.logaddexp(row[length, _END], stopped))
            likelihoods.append(Likelihood(words + end, end))
        return likelihoods

    def score_spelled(
        self, hidden: np.ndarray, words: Sequence[str]
    ) -> list[tuple[float, float, str]]:
        """Find the two likeliest sequences of these words, by beam search.

        Returns:
            The log probability of each, that of its end, and the sequence as a text.
        """
        first = [self._tokenized(word.capitalize()) for word in words]
        later = [self._tokenized(word) for word in words]
        # The log probability so far, the words' places, the remaining tokens of the last word.
        live: list[tuple[float, tuple[int, ...], list[int]]] = [(0.0, (), [])]
        ids, past, done = np.array([[_BEGIN]]), None, list[tuple[float, float, str]]()
        for _ in range(_MOST_TOKENS):
            scores, past = self._step(ids, np.repeat(hidden, len(live), 0), past)
            logs, candidates = (
                _log_probabilities(scores[:, -1]),
                list[tuple[float, int, tuple[int, ...], list[int]]](),
            )
            for row, (so_far, word_numbers, rest) in enumerate(live):
                if rest:
                    candidates.append((so_far + float(logs[row, rest[0]]), row, word_numbers, rest))
                    continue
                if word_numbers:
                    end = float(np.logaddexp(logs[row, _END], logs[row, self._stop]))
                    done.append((so_far + end, end, " ".join(words[at] for at in word_numbers)))
                for at, tokens in enumerate(later if word_numbers else first):
                    likely = so_far + float(logs[row, tokens[0]])
                    candidates.append((likely, row, (*word_numbers, at), tokens))
            done = sorted(done, reverse=True)[:2]
            best = sorted(candidates, key=itemgetter(0), reverse=True)[:_BEAM]
            if len(done) == 2 and best[0][0] < done[1][0]:
                break
            past = {name: each[[row for _, row, _, _ in best]] for name, each in past.items()}
            live = [(likely, word_numbers, tokens[1:]) for likely, _, word_numbers, tokens in best]
            ids = np.array([[tokens[0]] for _, _, _, tokens in best])
        return done

    def _step(
        self, ids: np.ndarray, hidden: np.ndarray, past: Mapping[str, np.ndarray] | None
    ) -> tuple[np.ndarray, Mapping[str, np.ndarray]]:
        """Run the decoder; return its scores of every next token, and its cache for the next."""
        inputs: dict[str, Any] = {
            "input_ids": ids,
            "encoder_hidden_states": hidden,
            "encoder_attention_mask": np.ones(hidden.shape[:2], np.int64),
            "use_cache_branch": np.array([past is not None]),
        }
        for name in self._past_names:
            length = 0 if "decoder" in name else hidden.shape[1]
            empty = np.zeros((len(ids), _HEADS, length, _WIDTH), np.float32)
            inputs[name] = empty if past is None else past[name]
        scores, *outputs = self._decoder.run(None, inputs)
        names = (name.replace("present", "past_key_values") for name in self._output_names)
        after = dict(zip(names, outputs, strict=True))
        if past is not None:
            after |= {name: value for name, value in past.items() if "encoder" in name}
        return scores, after

    def _tokenized(self, text: str) -> list[int]:
        """Tokenize a text by byte-pair encoding: the pairs with the lowest token id first."""
        if text not in self._pieces:
            pieces = [char.encode() for char in _SPACE + text.replace(" ", _SPACE)]
            while True:
                joins = [
                    (self._ids[left + right], at)
                    for at, (left, right) in enumerate(pairwise(pieces))
                    if left + right in self._ids
                ]
                if not joins:
                    break
                _, at = min(joins)
                pieces[at : at + 2] = [pieces[at] + pieces[at + 1]]
            self._pieces[text] = [self._ids[piece] for piece in pieces]
        return self._pieces[text]


def _log_probabilities(scores: np.ndarray) -> np.ndarray:
    """Turn scores into log probabilities (log-softmax over the last axis)."""
    shifted = scores - scores.max(-1, keepdims=True)
    logs: np.ndarray = shifted - np.log(np.exp(shifted).sum(-1, keepdims=True))
    return logs


def _read_tokens(packed: bytes) -> list[bytes]:
    """Read the tokens in the order of their ids: a length of one or two bytes, then the bytes."""
    tokens, at = list[bytes](), 0
    while at < len(packed):
        length, at = packed[at], at + 1
        if length >= 128:
            length, at = packed[at] * 128 + length - 128, at + 1
        tokens.append(packed[at : at + length])
        at += length
    return tokens
