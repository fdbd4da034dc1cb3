"""One build of the site by the builder, from within a command of the program.

It is the build that `mkdocs build` makes, with the plugin's own exchange of the sites at its end.
"""

from __future__ import annotations

from pathlib import Path

from mkdocs.commands import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException

from generator.dates import AsOf
from generator.dry_build import PLUGIN, listening
from generator.plugin import StudioHandbook


def build_site(settings: Path, site: Path, told: AsOf | None) -> tuple[str, ...]:
    """Build a site, and say what stopped it; nothing where it has taken its place.

    settings: mkdocs.yml. site: where it goes. told: the day that counts as today, where one was told.
    """
    with listening() as said:
        try:
            config = load_config(str(settings), site_dir=str(site.absolute()))
            plugin = config.plugins[PLUGIN]
            assert isinstance(plugin, StudioHandbook), "the check sees to that"
            if told is not None:
                plugin.config.as_of = told
            plugin.publishing = True
            config.plugins.on_startup(command="build", dirty=False)
            try:
                mkdocs_build.build(config)
            finally:
                plugin.publishing = False
                config.plugins.on_shutdown()
        except Abort as wrong:  # what it aborts over, it has said
            return tuple(one.text for one in said) or (str(wrong),)
        except MkDocsException as wrong:
            return (*(one.text for one in said), str(wrong))
    return ()
