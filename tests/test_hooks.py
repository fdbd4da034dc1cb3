"""A studio's own hook that fails is one diagnostic at its line, in a check and in a build, and no fault of ours."""

from __future__ import annotations

import contextlib
import logging
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, PluginError

from generator.diagnostics import Diagnostic
from generator.hooks import failed_hook
from generator.plugin import StudioHandbook, _of_a_hook_in_words

# What stands in the file of the hook; where it failed, and a part of what is said.
FAILING = {
    "at an event": ("def on_env(env, **_):\n    é = 1; return 1 / 0\n", (2, 19, 24), "ZeroDivisionError: division by"),
    "without a word": ("def on_env(env, **_):\n    assert not env\n", (2, 5, 19), "failed with AssertionError"),
    "deep inside": ("import json\ndef on_env(env, **_):\n    return json.loads('{')\n", (3, 12, 27), "JSONDecodeError"),
    "over a file": ("def on_env(env, **_):\n    open('no-such.txt')\n", (2, 5, 24), "FileNotFoundError"),
    "when it is read": ("import no_such_module\n", (1, 1, 22), "No module named 'no_such_module'"),
    "no Python": ("x = 1\ndef on_env(:\n", (2, 12, 13), "SyntaxError: invalid syntax"),
}


def _failed(folder: Path, text: str) -> Exception:
    """What a hook raises where MkDocs reads it, or at an event."""
    folder.mkdir()
    (folder / "ours.py").write_text(text, "utf-8")
    (folder / "docs").mkdir()
    (folder / "mkdocs.yml").write_text("site_name: Ours\nplugins: []\nhooks: [ours.py]\n", "utf-8")
    with pytest.raises(Exception) as raised:  # noqa: PT011 - what a hook raises is anything
        load_config(str(folder / "mkdocs.yml")).plugins.run_event("env", True)
    return raised.value


def _found(error: Exception) -> Diagnostic:
    found = failed_hook(error)
    assert found is not None
    return found


def test_where_a_hook_failed_and_what_happened(tmp_path: Path) -> None:
    wrong = {}
    for number, (name, (text, expected, words)) in enumerate(FAILING.items()):
        folder = tmp_path / str(number)
        error = _failed(folder, text)
        with contextlib.chdir(folder):
            found = _found(error)
        at = (found.place.line, found.place.column, found.place.end)
        if (found.code, found.place.file, at) != ("F834", "ours.py", expected) or words not in found.message:
            wrong[name] = found
    assert wrong == {}


def test_what_is_no_hook_is_another_fault(tmp_path: Path) -> None:
    """What a hook tells MkDocs to say, MkDocs says."""
    told = "from mkdocs.exceptions import PluginError\ndef on_env(env, **_):\n    raise PluginError('not today')\n"
    assert failed_hook(_failed(tmp_path / "told", told)) is None
    assert failed_hook(ValueError("ours")) is None and failed_hook(PluginError("ours")) is None


def test_a_build_and_a_start_say_it_without_a_traceback(
    tmp_path: Path, caplog: pytest.LogCaptureFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    error = _failed(tmp_path / "ours", FAILING["over a file"][0])
    with caplog.at_level(logging.ERROR, logger="mkdocs"), pytest.raises(Abort):
        StudioHandbook().on_build_error(error=error)
    _of_a_hook_in_words(type(error), error, error.__traceback__)
    for said in (caplog.text, capsys.readouterr().err):
        assert "ours.py:2:5" in said and "FileNotFoundError" in said and "take its file out of `hooks`" in said
        assert "Traceback" not in said and said.count("F834") == 1
