"""The page of what counts only for a time: what is over, what soon will be, and all of it by its last day."""

from __future__ import annotations

from markupsafe import Markup

from generator.planning.findings.expiring import OVER, SOON, Expiring, expiring
from generator.press.lists.here import Here
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.markup import Cells, bullets, heading, note, page, paragraph, table_of, ticked
from generator.records.expires import Expires, ExpiryAfter

EXPIRES = "reference/expires.md"


def expires_page(here: Here) -> str:
    """What is over first and by name, then what soon will be, then all by day, then the rules."""
    found = expiring(here.records, here.as_of)
    over, soon = ([each for each in found if each.state(here.as_of) == state] for state in (OVER, SOON))
    rules = {anchor("studio", "expires", name): _rule(name, here) for name in Expires.model_fields}
    return page(
        "What expires",
        paragraph(
            Markup(
                "As of {}, the first to end first. What nobody wrote down until when it counts, counts as over. "
                "{} are by themselves. What was tested on a client stands on that job’s sheet and in no list."
            ).format(here.as_of.isoformat(), here.to(PAGE_OF["reviews"], "Reviews"))
        ),
        note("Over", bullets(_named(each, here) for each in over), kind="first")
        if over
        else paragraph("Nothing is over."),
        note("Soon over", bullets(_named(each, here) for each in soon)) if soon else "",
        table_of(
            "What counts only for a time, by its last day",
            ((anchor("expires", str(number)), _expiring(each, here)) for number, each in enumerate(found, 1)),
            "Nothing on file counts only for a time.",
        ),
        heading("What follows", "rules"),
        paragraph(
            "A kind of thing for which the studio has no rule waits on the day of a job, and nobody is reminded."
        ),
        table_of("What follows when something is over", rules.items()),
    )


def _named(each: Expiring, here: Here) -> Markup:
    until = "nobody knows until when" if each.until is None else f"until {each.until.isoformat()}"
    what_to_do = ticked(each.renew[0].upper() + each.renew[1:] + ".")
    return Markup("{}: {}, {}. {}").format(_link(each, here), each.since, until, what_to_do)


def _link(each: Expiring, here: Here) -> Markup | str:
    if not each.entry:
        return each.what
    at = "studio-local-rules" if each.family == "studio" else anchor(each.family, each.entry)
    return here.to(PAGE_OF[each.family], each.what, at)


def _expiring(each: Expiring, here: Here) -> Cells:
    state = each.state(here.as_of)
    return {
        "What": _link(each, here),
        "Since": each.since,
        "Counts until": "nobody knows" if each.until is None else each.until.isoformat(),
        "State": Markup("<strong>{}</strong>").format(state) if state in (OVER, SOON) else state,
        "On the day of a job": "wait" if each.rule is None else each.rule.on_the_day,
    }


# How long something counts, where that is no value of the rule's own.
_ELSEWHERE = {
    "opened_inks": "by its opened life, and the printed expiry",
    "sterile_packs": "by the date printed on it",
    "training": "by each training",
    "checks": "by each check",
}


def _rule(name: str, here: Here) -> Cells:
    rule = getattr(here.records.studio.expires, name)
    value = here.records.studio.limits.calibration_age if name == "calibrations" else None
    if isinstance(rule, ExpiryAfter):
        value = rule.again
    lasts: str = _ELSEWHERE.get(name, "nobody has decided it")
    if value is not None and (kept := here.records.values.get(value)) is not None:
        lasts = here.to_record("values", value, here.measured(kept.is_))
    return {
        "What": name.replace("_", " "),
        "Counts for": lasts,
        "Reminded before": "not at all" if rule is None else here.measured(rule.remind),
        "On the day of a job": "wait" if rule is None else rule.on_the_day,
    }
