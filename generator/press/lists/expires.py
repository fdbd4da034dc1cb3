"""The page of what counts only for a time: what is over, what soon will be, and all of it by its last day."""

from __future__ import annotations

import datetime

from markupsafe import Markup

from generator.planning.findings.expiring import OVER, SOON, Expiring, expiring
from generator.press.words.addresses import PAGE_OF, address, anchor, to_record
from generator.press.words.formatted import measured
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table
from generator.records.expires import Expires, ExpiryAfter
from generator.records.families import Records

EXPIRES = "reference/expires.md"


def expires_page(records: Records, as_of: datetime.date, here: str = EXPIRES) -> str:
    """What is over first and by name, then what soon will be, then all by day, then the rules."""
    found = expiring(records, as_of)
    over, soon = ([each for each in found if each.state(as_of) == state] for state in (OVER, SOON))
    columns = ("What", "Since", "Counts until", "State", "On the day of a job")
    return page(
        "What expires",
        paragraph(
            Markup(
                "As of {}, the first to end first. What nobody wrote down until when it counts, counts as over. "
                "{} are by themselves. What was tested on a client stands on that job’s sheet and in no list."
            ).format(as_of.isoformat(), link(address(here, PAGE_OF["reviews"]), "Reviews"))
        ),
        note("Over", bullets(_named(each, here) for each in over), kind="first")
        if over
        else paragraph("Nothing is over."),
        note("Soon over", bullets(_named(each, here) for each in soon)) if soon else "",
        table(
            "What counts only for a time, by its last day",
            columns,
            (_row(number, each, here, as_of) for number, each in enumerate(found, 1)),
            "Nothing on file counts only for a time.",
        ),
        heading("What follows", "rules"),
        paragraph(
            "A kind of thing for which the studio has no rule waits on the day of a job, and nobody is reminded."
        ),
        table(
            "What follows when something is over",
            ("What", "Counts for", "Reminded before", "On the day of a job"),
            (_rule(name, records, here) for name in Expires.model_fields),
        ),
    )


def _named(each: Expiring, here: str) -> Markup:
    until = "nobody knows until when" if each.until is None else f"until {each.until.isoformat()}"
    return Markup("{}: {}, {}. {}").format(_link(each, here), each.since, until, _sentence(each.renew))


def _sentence(renew: str) -> Markup:
    """What to do, as a sentence; what is to be written stays as it is typed."""
    pieces = [
        Markup("<code>{}</code>").format(piece) if number % 2 else Markup("{}").format(piece)
        for number, piece in enumerate((renew[0].upper() + renew[1:] + ".").split("`"))
    ]
    return Markup("").join(pieces)


def _link(each: Expiring, here: str) -> Markup | str:
    if not each.entry:
        return each.what
    return link(address(here, PAGE_OF[each.family], _at(each)), each.what)


def _at(each: Expiring) -> str:
    return "studio-local-rules" if each.family == "studio" else anchor(each.family, each.entry)


def _row(number: int, each: Expiring, here: str, as_of: datetime.date) -> Row:
    state = each.state(as_of)
    return Row(
        anchor("expires", str(number)),
        (
            _link(each, here),
            each.since,
            "nobody knows" if each.until is None else each.until.isoformat(),
            Markup("<strong>{}</strong>").format(state) if state in (OVER, SOON) else state,
            "wait" if each.rule is None else each.rule.on_the_day,
        ),
    )


# How long something counts, where that is no value of the rule's own.
_ELSEWHERE = {
    "opened_inks": "by its opened life, and the printed expiry",
    "sterile_packs": "by the date printed on it",
    "training": "by each training",
    "checks": "by each check",
}


def _rule(name: str, records: Records, here: str) -> Row:
    rule = getattr(records.studio.expires, name)
    if isinstance(rule, ExpiryAfter) or name == "calibrations":
        value = rule.again if isinstance(rule, ExpiryAfter) else records.studio.limits.calibration_age
    else:
        value = None
    lasts: str = _ELSEWHERE.get(name, "nobody has decided it")
    if value is not None and (kept := records.values.get(value)) is not None:
        lasts = to_record(here, "values", value, measured(kept.is_, records))
    return Row(
        anchor("studio", "expires", name),
        (
            name.replace("_", " "),
            lasts,
            "not at all" if rule is None else measured(rule.remind, records),
            "wait" if rule is None else rule.on_the_day,
        ),
    )
