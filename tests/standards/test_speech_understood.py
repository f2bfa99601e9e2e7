"""A listener that knows nothing of walkaround must understand what it says.

The listener is pocketsphinx, an independent speech recogniser with its own acoustic model and
pronouncing dictionary of US English. It is given the list of titles as its grammar, as a mechanic
who knows the walk has it in mind, and must name the one that was said.
"""

from pathlib import Path

from support.listening import PATIENCE_S, heard, listen_for, listener, quietly, said_by, titles

from walkaround.voice.clips import RenderedVoice

LEAST_UNDERSTOOD = 0.98
SAID = 3
"""Of the titles that are listed, every third is said."""


async def test_a_recogniser_names_the_title_that_was_said(tmp_path: Path) -> None:
    recognizer, voice = listener(), RenderedVoice(tmp_path, timeout_s=PATIENCE_S)
    listed = listen_for(recognizer, titles())
    assert len(listed) >= 0.9 * len(titles()), f"unknown words in {set(titles()) - set(listed)}"
    said = list(listed.items())[::SAID]
    misheard = {}
    for title, words in said:
        if (understood := heard(recognizer, quietly(await said_by(voice, title)))) != words:
            misheard[title] = understood
    voice.close()
    share = 1 - len(misheard) / len(said)
    print(f"\nunderstood: {share:.1%} of {len(said)} titles; misheard: {misheard}")
    assert share >= LEAST_UNDERSTOOD
