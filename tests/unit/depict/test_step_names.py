"""Every step that has words has a title, and every side that allowances go to is told."""

from __future__ import annotations

import ast
import inspect

import pytest

from ellwand.depict.words.other_steps import OTHER_STEPS
from ellwand.depict.words.step_asking import FINISH, FINISH_NAMES, TOWARD
from ellwand.depict.words.step_names import STEP_NAMES, step_named
from ellwand.depict.words.steps import _WORDS
from ellwand.language import speaking
from ellwand.sew import finishes


def test_steps_with_words_are_those_with_a_title() -> None:
    assert set(_WORDS) | set(OTHER_STEPS) == STEP_NAMES


def test_a_title_begins_with_a_capital() -> None:
    assert step_named("tail on") == "Tail on"
    with speaking("de"):
        assert all(step_named(code)[0].isupper() for code in STEP_NAMES)


def test_no_title_for_an_unknown_step() -> None:
    with pytest.raises(KeyError):
        step_named("ironing")


def test_every_side_allowances_go_to_is_told() -> None:
    """The sides are read off the source of the stage that chooses them."""
    said = {
        node.value
        for node in ast.walk(ast.parse(inspect.getsource(finishes)))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith(("the ", "one "))
    }
    assert "the gusset" in said
    assert said <= set(TOWARD)


def test_every_finish_has_a_name() -> None:
    assert set(FINISH) == set(FINISH_NAMES)
