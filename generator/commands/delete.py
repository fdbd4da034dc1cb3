"""A job, or all of a client, deleted."""

from __future__ import annotations

import argparse
import shutil

from generator.commands.says import MISTAKES, OK, WRONG_CALL, out, say
from generator.deleting import built_elsewhere, client_to_delete, delete, job_to_delete, left_of, older_sites
from generator.kept.folder import Folder


def run(options: argparse.Namespace) -> int:
    """Deleting is done when nothing is left: until then the exit status is 1, also when it is given again."""
    if bool(options.job) == bool(options.client):
        say("error: name a job or `--client` with a reference, and not both")
        return WRONG_CALL
    content = options.content
    what = job_to_delete(content, options.job) if options.job else client_to_delete(content, options.client)
    older = list(older_sites(content, what))
    for path in (*what.files, *older):
        out(f"{'deleted' if options.yes else 'would be deleted'}: {path}")
    if (what.files or older) and not options.yes:
        say("nothing was deleted: there is no way back from it; give the same command with `--yes`")
        return MISTAKES
    delete(what)
    for path in older:
        shutil.rmtree(path)
    Folder(content).forget(what.words)
    left = [path for root in (content.parent, *built_elsewhere(content)) for path in left_of(root, what)]
    for path in left:
        out(f"still names {what.words[0]}: {path}")
    if left:
        say("build the handbook again, and give the same command once more; what then is left is yours to delete")
        return MISTAKES
    out(f"nothing here names {what.words[0]} any more; look into backups, version control and printed sheets too")
    return OK
