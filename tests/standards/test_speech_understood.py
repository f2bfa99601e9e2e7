"""A listener that knows nothing of walkaround must understand what it says.

The listener is pocketsphinx, an independent speech recogniser with its own acoustic model and
pronouncing dictionary of US English. It is given the list of titles as its grammar, as a mechanic
who knows the walk has it in mind, and must name the one that was said.
"""

import re
from datetime import date
from functools import cache
from pathlib import Path

import pytest
from pocketsphinx import Config, Decoder, get_model_path
from support.listening import LISTENS_AT_HZ, heard

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.voice.clips import RenderedVoice
from walkaround.words.spoken import spoken


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


# Every title that a walk of the demo vehicles has, one circuit at a time and in the fewest looks.
TITLES = sorted(
    {
        str(step.title)
        for vehicle in library().vehicles
        for together in (True, False)
        for step in plan_walk(vehicle, library().rules, together=together).steps
    }
)

# Words that the recogniser's dictionary lacks, written with words that it has.
RESPELLED = {"gladhand": "glad hand", "gladhands": "glad hands", "pushrods": "push rods"}
RATE_WPM = 160
SHARE_UNDERSTOOD = 0.85
SAID = 3
"""Of the titles that are listed, every third is said."""


@pytest.fixture(scope="module")
def listener() -> Decoder:
    model = Path(get_model_path()) / "en-us"
    return Decoder(
        Config(
            hmm=str(model / "en-us"),
            dict=str(model / "cmudict-en-us.dict"),
            lm=None,
            samprate=LISTENS_AT_HZ,
            loglevel="FATAL",
        )
    )


def _as_listed(listener: Decoder, title: str) -> str | None:
    """Write a title in words of the listener's dictionary; None if it lacks one of them."""
    letter_a = re.sub(r"(?<=\w )A\b|\bA(?= [A-Z]\b)", "a.", spoken(title))  # "a" is the article
    words = re.findall(r"a\.|[a-z']+", letter_a.lower())
    respelled = " ".join(RESPELLED.get(word, word) for word in words)
    known = all(listener.lookup_word(word) for word in respelled.split())
    return respelled if known else None


async def test_a_recogniser_names_the_title_that_was_said(
    listener: Decoder, tmp_path: Path
) -> None:
    listed = {title: words for title in TITLES if (words := _as_listed(listener, title))}
    assert len(listed) >= 0.9 * len(TITLES), f"unknown words in {set(TITLES) - set(listed)}"
    grammar = " | ".join(listed.values())
    listener.add_jsgf_string("titles", f"#JSGF V1.0; grammar g; public <title> = {grammar};")
    listener.activate_search("titles")
    voice = RenderedVoice(tmp_path)
    misheard = {}
    said = list(listed.items())[::SAID]
    for title, words in said:
        digest = await voice.ready(spoken(title), RATE_WPM)
        assert digest is not None
        path = voice.file(digest)
        assert path is not None
        if (understood := heard(listener, path)) != words:
            misheard[title] = understood
    voice.close()
    share = 1 - len(misheard) / len(said)
    print(f"\nunderstood: {share:.1%} of {len(said)} titles; misheard: {misheard}")
    assert share >= SHARE_UNDERSTOOD
