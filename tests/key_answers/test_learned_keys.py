"""Keys are learnt by pressing them once, and mean one thing each."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.key_answers.learned_keys import ACTIONS, MOST_KEYS, Action, LearnedKeys, key_name

PRESSED = st.text(min_size=1, max_size=45)


@given(st.lists(st.tuples(PRESSED, st.sampled_from(ACTIONS)), max_size=40))
def test_a_key_means_what_it_was_learnt_for_last(presses: list[tuple[str, Action]]) -> None:
    learnt, meant = LearnedKeys(), dict[str, Action]()
    for key, action in presses:
        learnt = learnt.learn(key, action)
        if 0 < len(key_name(key)) <= 40 and key_name(key) != "Tab":
            meant.pop(key_name(key), None)
            meant[key_name(key)] = action
    kept = dict(list(meant.items())[-MOST_KEYS:])
    assert dict(learnt.keys) == kept
    assert all(learnt.action(key) == action for key, action in kept.items())
    assert {key for action in ACTIONS for key in learnt.keys_for(action)} == set(kept)
    assert LearnedKeys.from_json(learnt.model_dump_json()) == learnt


@pytest.mark.parametrize("text", ["", "{", "[]", '{"keys": {"1": "close"}}', '{"keys": 3}'])
def test_a_phone_that_kept_nonsense_has_learnt_nothing(text: str) -> None:
    assert LearnedKeys.from_json(text) == LearnedKeys()


def test_the_space_bar_has_a_name_and_tab_is_left_to_go_from_control_to_control() -> None:
    learnt = LearnedKeys().learn(" ", "ok").learn("Tab", "defect")
    assert learnt.keys_for("ok") == ("Space",)
    assert learnt.action(" ") == "ok"
    assert learnt.action("Tab") is None
    assert learnt.action("") is None
