"""A listener that knows nothing of walkaround must tell its Spanish titles apart.

No Spanish model of pocketsphinx can be had as a package; the listener is its US English one, given
a dictionary in which each Spanish word is spelled with the English sounds nearest to its own, as a
foreigner would hear it. It has the titles as its grammar, and must name the one that was said.
Spanish spelling tells sounds by rule: Real Academia Española, Ortografía, from memory.
"""

import re
from pathlib import Path

from pocketsphinx import Config, Decoder, get_model_path
from support.checklist_texts import shipped_library
from support.listening import LISTENS_AT_HZ, PATIENCE_S, heard, quietly
from support.spanish import SPANISH

from walkaround.plan.plan_walk import plan_walk
from walkaround.voice.clips import RenderedVoice

RATE_WPM = 160
SHARE_UNDERSTOOD = 0.8
SAID = 7
"""Of the titles that are listed, every seventh is said."""

VOWELS = {"a": "AA", "e": "EH", "i": "IY", "o": "OW", "u": "UW"}
CONSONANTS = {
    "b": "B", "ch": "CH", "d": "D", "f": "F", "j": "HH", "k": "K", "l": "L", "ll": "Y", "m": "M",
    "n": "N", "ñ": "N Y", "p": "P", "qu": "K", "r": "R", "rr": "R", "s": "S", "t": "T", "v": "B",
    "w": "W", "x": "K S", "y": "Y", "z": "S", "h": "", "ce": "S EH", "ci": "S IY", "c": "K",
    "gue": "G EH", "gui": "G IY", "ge": "HH EH", "gi": "HH IY", "g": "G",
    # Before another vowel, i and u are half consonants.
    "ia": "Y AA", "ie": "Y EH", "io": "Y OW", "ua": "W AA", "ue": "W EH", "ui": "W IY",
}  # fmt: skip
LETTERS = {
    "a": "AA",
    "b": "B EH",
    "c": "S EH",
    "f": "EH F EH",
    "h": "AA CH EH",
    "r": "EH R EH",
    "s": "EH S EH",
}
SOUNDS = CONSONANTS | VOWELS
SPELLED = re.compile("|".join(sorted(SOUNDS, key=len, reverse=True)))
# Between vowels consonants are softer, and unstressed vowels duller, than an English ear expects.
SOFTER = {"R": "D", "B": "V", "D": "DH"}
DULLER = {"AA": "AH", "OW": "AO", "EH": "EY"}


def pronounced(word: str) -> list[str]:
    """How a word may sound: plainly, with soft consonants, and with dull vowels."""
    plain = word.translate(str.maketrans("áéíóúü", "aeiouw"))
    told = LETTERS.get(plain) or " ".join(SOUNDS[part] for part in SPELLED.findall(plain))
    sounds = told.split()
    before = ["", *sounds]
    soft = [
        SOFTER.get(sound, sound) if before[at] in VOWELS.values() and "rr" not in plain else sound
        for at, sound in enumerate(sounds)
    ]
    dull = [DULLER.get(sound, sound) for sound in sounds]
    return [" ".join(each) for each in (sounds, soft, dull)]


def words(title: str) -> list[str]:
    return re.findall(r"[a-záéíóúüñ]+", SPANISH.spoken(title).lower())


def titles() -> list[str]:
    library = shipped_library()
    plans = [
        plan_walk(vehicle, library.rules, together=together)
        for vehicle in library.vehicles
        for together in (True, False)
    ]
    return sorted({SPANISH.text(step.title) for plan in plans for step in plan.steps})


def listener(path: Path, known: list[str]) -> Decoder:
    """A listener whose dictionary has these words, each by its place in the list."""
    lines = []
    for at, word in enumerate(known):
        for way, sounds in enumerate(dict.fromkeys(pronounced(word)), start=1):
            lines.append(f"w{at}({way}) {sounds}" if way > 1 else f"w{at} {sounds}")
    path.write_text("\n".join(lines) + "\n", encoding="ascii")
    hmm = str(Path(get_model_path()) / "en-us" / "en-us")
    return Decoder(
        Config(hmm=hmm, dict=str(path), lm=None, samprate=LISTENS_AT_HZ, loglevel="FATAL")
    )


async def test_a_foreigner_who_knows_the_titles_names_the_one_that_was_said(
    tmp_path: Path,
) -> None:
    known = sorted({word for title in titles() for word in words(title)})
    place = {word: f"w{at}" for at, word in enumerate(known)}
    listed = {title: " ".join(place[word] for word in words(title)) for title in titles()}
    recognizer = listener(tmp_path / "es.dict", known)
    grammar = " | ".join(listed.values())
    recognizer.add_jsgf_string("titles", f"#JSGF V1.0; grammar g; public <title> = {grammar};")
    recognizer.activate_search("titles")
    voice = RenderedVoice(tmp_path, timeout_s=PATIENCE_S)
    misheard = {}
    said = list(listed.items())[::SAID]
    for title, named in said:
        digest = await voice.render(SPANISH.spoken(title), RATE_WPM, "es")
        assert digest is not None
        path = voice.file(digest)
        assert path is not None
        if (understood := heard(recognizer, quietly(path))) != named:
            misheard[title] = understood
    voice.close()
    share = 1 - len(misheard) / len(said)
    print(f"\nunderstood: {share:.1%} of {len(said)} titles; misheard: {misheard}")
    assert share >= SHARE_UNDERSTOOD
