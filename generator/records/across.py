"""What only shows when all families have been read: how records of one family fit those of another."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping

from generator.diagnostics import Diagnostic, Place
from generator.records.people import Person
from generator.records.procedures import Procedure, Review


def nothing_is_sterilized(loads: Mapping[str, Place]) -> Iterator[Diagnostic]:
    """Loads of a studio that says it sterilizes nothing."""
    for load, place in loads.items():
        yield Diagnostic(
            "R331", place, f"there is a load `{load}`, and nothing is sterilized here", f"“{load}”", "no loads",
            "write `reprocessing: yes` in studio.yml, or take the load away",
        )  # fmt: skip


def reviews_of_nothing(reviews: Iterable[Review], families: Iterable[str]) -> Iterator[Diagnostic]:
    """Reviews of families that there are not."""
    names = sorted(families)
    for review in reviews:
        if review.id not in names:
            near = difflib.get_close_matches(review.id, names, n=1, cutoff=0.5)
            yield Diagnostic(
                "L402", review.id.place, f"there is no family of records called `{review.id}`", f"“{review.id}”",
                "the name of a family, as its file is called without `.yml`",
                f"did you mean `{near[0]}`?" if near else f"families: {', '.join(names)}",
            )  # fmt: skip


def signatures_to_nothing(people: Iterable[Person], procedures: Mapping[str, Procedure]) -> Iterator[Diagnostic]:
    """Signatures to a text that the procedure is not known to have had."""
    for person in people:
        for signed in person.signed:
            procedure = procedures.get(signed.procedure)
            # One that is not there, or could not be read, has its own diagnostic.
            if procedure is None or signed.text in (revision.text for revision in procedure.revisions):
                continue
            listed = ", ".join(f"`{revision.text}`" for revision in procedure.revisions)
            yield Diagnostic(
                "L403", signed.text.place, f"`{procedure.id}` has no text `{signed.text}` on file", f"“{signed.text}”",
                "the hash of a text that the procedure lists",
                f"texts of `{procedure.id}`: {listed}; list this one there, or copy the hash from the sign-off sheet",
            )  # fmt: skip
