"""The demo studio's records and pages go into the wheel, because `new-studio` is derived from them."""

from __future__ import annotations

import shutil
from pathlib import Path

from setuptools import setup
from setuptools.command.build_py import build_py

HERE = Path(__file__).parent


class BuildWithDemo(build_py):
    """Copies `content/` and `handbook/` beside the package; an editable install reads them where they are."""

    def run(self) -> None:
        super().run()
        if self.editable_mode:
            return
        for name in ("content", "handbook"):
            to = Path(self.build_lib) / "generator" / "shipped" / "demo" / name
            shutil.rmtree(to, ignore_errors=True)
            shutil.copytree(HERE / name, to, ignore=shutil.ignore_patterns("jobs"))


setup(cmdclass={"build_py": BuildWithDemo})
