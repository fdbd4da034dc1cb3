"""The one date that a build is made for."""

import datetime
import os


def as_of() -> datetime.date:
    """SOURCE_DATE_EPOCH, else today: the same content and the same date give the same bytes."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isascii() and epoch.isdigit() and len(epoch) < 12:
        return datetime.datetime.fromtimestamp(int(epoch), datetime.UTC).date()
    return datetime.date.today()
