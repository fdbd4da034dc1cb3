"""A generated page while it is made, for tests that make one page alone."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from generator.press.lists.here import Here
from generator.press.manual.procedures import ProcedurePage
from generator.records.families import Records
from tests.planning.demo import RECORDS

AS_OF = datetime.date(2027, 5, 12)
NONE_WRITTEN: Mapping[str, ProcedurePage] = {}


def page_at(
    address: str,
    records: Records = RECORDS,
    as_of: datetime.date = AS_OF,
    procedures: Mapping[str, ProcedurePage] = NONE_WRITTEN,
) -> Here:
    """Where a page of the demo is made, unless other records are given."""
    return Here(records, address, as_of, procedures)
