"""Suggestions for a word that is not known: one rule, kept in one place, that never offers a word that clears."""

from __future__ import annotations

import ast

import pytest

from generator.near_miss import ALIKE, did_you_mean, likeness, nearest
from tests.source import SOURCE, nodes


def test_likeness_is_asked_for_in_one_place() -> None:
    users = {
        path.relative_to(SOURCE).as_posix()
        for path in SOURCE.rglob("*.py")
        for node in nodes(path)
        if isinstance(node, ast.Import) and "difflib" in {alias.name for alias in node.names}
    }
    assert users == {"near_miss.py"}


@pytest.mark.parametrize(
    ("found", "known", "near"),
    [
        ("qiull", ["mo", "quill", "tilde"], "quill"),
        ("quill-x", ["quill", "quill-y"], "quill-y"),
        ("zzz", ["mo", "quill"], ""),
        ("", ["mo"], ""),
        ("mo", [], ""),
        ("abcde", ["abcxy"], "abcxy"),  # exactly at the cut-off: six letters of ten
        ("abcdef", ["abcxyz"], ""),
    ],
)
def test_the_nearest_word_from_the_cut_off_on(found: str, known: list[str], near: str) -> None:
    assert nearest(found, known) == near
    assert all(likeness(found, word) < ALIKE for word in known) == (near == "")


def test_a_word_that_clears_is_not_suggested_and_no_other_one_in_its_place() -> None:
    assert nearest("softt", ["soft", "sofa"], never=("soft",)) == ""
    assert nearest("hardd", ["soft", "hard"], never=("soft",)) == "hard"


def test_what_is_said_with_and_without_a_suggestion() -> None:
    assert did_you_mean("quill", "ids there: mo") == "did you mean `quill`?"
    assert did_you_mean("", "ids there: mo") == "ids there: mo"
