"""What a plan allows more than another one of the same piece: in its verdict, its findings, its times or its tray."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from generator.planning.findings.verdict import RANK, Finding, Verdict
from generator.planning.plan import JobPlan, Work

_ROUNDING = 1e-6  # minutes and millilitres are rounded to nine digits


def rank(verdict: Verdict) -> tuple[int, datetime.date]:
    """How much a verdict forbids; a wait without a date is longer than any with one."""
    if verdict.level == "wait":
        return RANK["wait"], verdict.until or datetime.date.max
    return (0 if verdict.level == "clear" else RANK[verdict.level]), datetime.date.min


def more_permissive(whole: JobPlan, less: JobPlan | None) -> list[str]:
    """Everything that a plan which knows less allows more. Nothing where it cannot be planned any more."""
    if less is None:
        return []
    before, after = rank(whole.verdict), rank(less.verdict)
    found = [f"verdict: {whole.verdict.heading}, then {less.verdict.heading}"] if after < before else []
    if after[0] == before[0]:
        lost = [finding for finding in whole.findings if not _kept(finding, less.findings)]
        found += [f"no longer said: {finding.reason}" for finding in lost]
    if whole.work is not None and less.work is not None:
        found += _less(_amounts(whole.work), _amounts(less.work))
        found += _more(_freedoms(whole.work), _freedoms(less.work))
    if whole.kept_until is not None:
        shorter = less.kept_until is None or less.kept_until.answer < whole.kept_until.answer
        found += ["its record is kept for less time"] if shorter else []
    return found


def _kept(finding: Finding, later: tuple[Finding, ...]) -> bool:
    """Whether something as bad is still said of the same thing, or what was a note is gone: it forbids nothing."""
    if finding.level == "note":
        return True
    return any(RANK[f.level] >= RANK[finding.level] and _same(finding, f) for f in later)


def _same(one: Finding, other: Finding) -> bool:
    """Whether both come of one rule, are about one thing, or one is about something inside what the other is about.

    Two that are about the artist, or about all parts, need not be about the same thing.
    """
    if one.rule == other.rule or (one.about == other.about and "." in one.about):
        return True
    return one.about.startswith(f"{other.about}.") or other.about.startswith(f"{one.about}.")


def _amounts(work: Work) -> Mapping[str, float]:
    """What may not become less: minutes, breaks, sittings, what lies on the tray, what is taken instead."""
    times, made = work.timetable, dict[str, float]()
    for name in ("set_up", "working", "breaks", "break_count", "chair", "whole", "sittings"):
        value = getattr(times, name)
        made |= {f"{name}, low": value.low, f"{name}, high": value.high}
    for counted in work.tray.supplies:
        made[f"{counted.supply.id} on the tray"] = counted.number.high
        made[f"something instead of {counted.supply.id}"] = bool(counted.instead)
    for poured in work.tray.inks:
        made[f"{poured.ink.id}, mL"] = poured.millilitres.high
        made[f"{poured.ink.id}, caps"] = 0 if poured.caps is None else poured.caps.high
    for step in work.steps:
        key = f"minutes of {step.part.id}, {step.ink.id}, {step.section}"
        made[key] = made.get(key, 0) + step.booked.high
    made["the first day of the touch-up"] = work.touch_up.answer.opens.toordinal()
    return made


def _freedoms(work: Work) -> Mapping[str, float]:
    """What may not become more: how often one spot is gone over."""
    made = dict[str, float]()
    for step in work.steps:
        key = f"passes at most of {step.part.id}, {step.ink.id}, {step.section}"
        over = [scar.passes.low for scar in step.over if scar.passes is not None]
        made[key] = max(made.get(key, 0), min(step.passes.low, *over) if over else step.passes.low)
    return made


def _less(before: Mapping[str, float], after: Mapping[str, float]) -> Iterator[str]:
    for name, amount in before.items():
        if (now := after.get(name, 0)) < amount - _ROUNDING:
            yield f"{name}: {amount:g}, then {now:g}"


def _more(before: Mapping[str, float], after: Mapping[str, float]) -> Iterator[str]:
    for name, amount in after.items():
        if name in before and amount > before[name]:
            yield f"{name}: {before[name]:g}, then {amount:g}"
