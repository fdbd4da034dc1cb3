"""The smallest studio that the records allow: every family empty that may be."""

from __future__ import annotations

import dataclasses

from generator.records.families import Records
from generator.records.roles import Roles
from tests.planning.demo import RECORDS


def minimal() -> Records:
    """The demo studio with nothing on file but its own limits and the sources."""
    emptied = {
        field.name: {}
        for field in dataclasses.fields(RECORDS)
        if isinstance(getattr(RECORDS, field.name), dict) and field.name != "sources"
    }
    studio = RECORDS.studio.model_copy(update={"roles": Roles(), "line_ink": None})
    return dataclasses.replace(RECORDS, studio=studio, **emptied)
