"""A studio's own hook or plugin that fails is one diagnostic at its line, in a check and in a build."""

from __future__ import annotations

import contextlib
import logging
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.config_options import Plugins
from mkdocs.exceptions import Abort, PluginError
from mkdocs.plugins import BasePlugin, PluginCollection

from generator.diagnostics import Diagnostic
from generator.faults import INTERNAL
from generator.hooks import failed_hook
from generator.plugin import StudioHandbook, _uncaught_in_words, ours

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


class Theirs(BasePlugin):  # type: ignore[type-arg,no-untyped-call]
    """A plugin that somebody added, and that fails."""

    def on_env(self, env: object, **_: object) -> None:
        raise KeyError("theirs")

    def on_build_error(self, *, error: Exception) -> None:
        """MkDocs tells every plugin of a fault, so that another one is at work then."""


class _NotLoaded:
    """Where a plugin is installed whose own file fails when it is read."""

    def load(self) -> type:
        raise ImportError("no module named so")


def _raised(run: Callable[[str], object], name: str) -> Exception:
    with pytest.raises(Exception) as raised:  # noqa: PT011 - what a plugin raises is anything
        run(name)
    return raised.value


def _loaded(name: str) -> None:
    plugins = Plugins()
    plugins.installed_plugins = {name: _NotLoaded()}  # type: ignore[dict-item]
    plugins._instance_counter = Counter()
    plugins.load_plugin(name, {})


def _at_an_event(name: str) -> None:
    plugins = PluginCollection()
    plugins[name] = Theirs()
    try:
        plugins.run_event("env", object())
    finally:
        plugins.run_event("build_error", error=None)


def test_a_plugin_that_fails_is_named_at_its_line(tmp_path: Path) -> None:
    settings = tmp_path / "mkdocs.yml"
    settings.write_text("# theirs\nplugins:\n  - studio-handbook\n  - theirs: {a: b}\n", "utf-8")
    for run, what in ((_at_an_event, "KeyError: 'theirs'"), (_loaded, "ImportError: no module named so")):
        found = failed_hook(_raised(run, "theirs"), settings, ours())
        assert found is not None and found.message == f"the plugin `theirs` failed with {what}"
        assert (found.code, found.place.line, found.place.column) == ("F834", 4, 5) and __file__ in found.found
        # What comes with the program is no fault of the studio.
        for name in ("search", "material/search", "studio-handbook"):
            assert failed_hook(_raised(run, name), settings, ours()) is None


def test_whatever_else_fails_in_a_build_is_no_traceback(capsys: pytest.CaptureFixture[str]) -> None:
    for kind in (ZeroDivisionError, RecursionError):
        with pytest.raises(SystemExit) as left:
            StudioHandbook().on_build_error(error=kind("by hand"))
        said = capsys.readouterr().err
        assert left.value.code == INTERNAL and "fault of the program" in said and "Traceback" not in said
    StudioHandbook().on_build_error(error=PluginError("said by the builder"))
    _uncaught_in_words(ZeroDivisionError, ZeroDivisionError("by hand"), None)
    assert "Traceback" not in capsys.readouterr().err


def test_a_build_and_a_start_say_it_without_a_traceback(
    tmp_path: Path, caplog: pytest.LogCaptureFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    error = _failed(tmp_path / "ours", FAILING["over a file"][0])
    with caplog.at_level(logging.ERROR, logger="mkdocs"), pytest.raises(Abort):
        StudioHandbook().on_build_error(error=error)
    _uncaught_in_words(type(error), error, error.__traceback__)
    for said in (caplog.text, capsys.readouterr().err):
        assert "ours.py:2:5" in said and "FileNotFoundError" in said and "take its file out of `hooks`" in said
        assert "Traceback" not in said and said.count("F834") == 1
