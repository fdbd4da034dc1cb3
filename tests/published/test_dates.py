"""Dates against the worked examples of calendars, and against published intervals."""

from datetime import date

import pytest

from generator.trade.dates import add_months, add_weeks, next_review, overdue, retention_end
from generator.trade.scars import earliest_date_by_age, maturity_months
from tests.published.printed import Document, Printed

DONE = date(2027, 5, 12)

DATEUTIL = Document("dateutil 2.7.3, dateutil examples", "The dateutil project", 2018)
NEXT_MONTH = DATEUTIL.at("relativedelta examples, next month")
MONTH_ENDS = DATEUTIL.at("relativedelta examples, months with different numbers of days")
HOW_OLD = DATEUTIL.at("relativedelta examples, how long ago, and how old")
RUBY = Document("Ruby 3.0 reference manual, Date#>>", "The Ruby core team", 2020).at("examples")
JAVA = Document("Java SE 8, class java.time.LocalDate", "Oracle", 2014)
JAVA_MONTHS, JAVA_YEARS = JAVA.at("plusMonths", "B"), JAVA.at("plusYears", "B")
JAVA_WEEKS, JAVA_UNTIL = JAVA.at("plusWeeks", "B"), JAVA.at("until", "B")
DB2_I = Document("IBM i 7.4, Db2 SQL reference, ADD_MONTHS", "IBM", 2019).at("examples")
DB2 = Document("Db2 11.1 SQL reference, ADD_MONTHS scalar function", "IBM", 2016).at("examples")
DATE_FNS = Document("date-fns 3, addMonths", "The date-fns project", 2023).at("examples", "B")
PGSQL_APRIL = Document("Re: Date / interval question", "PostgreSQL general mailing list", 2008).at("11 April")
PGSQL_NOVEMBER = Document("Re: Get interval in months", "PostgreSQL general mailing list", 2008).at("8 November")


# What is printed is the day.
@pytest.mark.parametrize(
    ("start", "months", "day"),
    [
        ("2003-09-17", 1, NEXT_MONTH("2003-10-17")),
        ("2003-01-27", 1, MONTH_ENDS("2003-02-27")),
        ("2003-01-31", 1, MONTH_ENDS("2003-02-28")),
        ("2003-01-31", 2, MONTH_ENDS("2003-03-31")),
        ("2000-02-28", 12, MONTH_ENDS("2001-02-28")),
        ("2000-02-29", 12, MONTH_ENDS("2001-02-28")),
        ("1999-02-28", 12, MONTH_ENDS("2000-02-28")),
        ("1999-03-01", 12, MONTH_ENDS("2000-03-01")),
        ("2001-02-03", 1, RUBY("2001-03-03")),
        ("2001-01-28", 1, RUBY("2001-02-28")),
        ("2001-01-31", 1, RUBY("2001-02-28")),
        ("2001-01-31", 2, RUBY("2001-03-31")),
        ("2007-03-31", 1, JAVA_MONTHS("2007-04-30")),
        ("2008-02-29", 12, JAVA_YEARS("2009-02-28")),
        ("2000-01-31", 1, DB2_I("2000-02-29")),
        ("1965-07-27", 3, DB2_I("1965-10-27")),
        ("2000-02-28", 4, DB2_I("2000-06-28")),
        ("2000-02-29", 4, DB2_I("2000-06-29")),  # as date arithmetic; its function for ends of months says the 30th
        ("2007-01-31", 1, DB2("2007-02-28")),
        ("2008-02-28", 4, DB2("2008-06-28")),
        ("2014-09-01", 5, DATE_FNS("2015-02-01")),
        ("2023-01-30", 1, DATE_FNS("2023-02-28")),
    ],
)
def test_months_are_counted_on_the_calendar(start: str, months: int, day: Printed) -> None:
    begins, ends = date.fromisoformat(start), date.fromisoformat(day.literal)
    assert add_months(begins, months) == next_review(begins, months) == ends
    assert earliest_date_by_age(begins, months) == ends
    if months % 12 == 0:
        assert retention_end(begins, months // 12) == ends


def test_one_month_after_another_is_not_two_months() -> None:
    assert add_months(add_months(date(2001, 1, 31), 1), 1).isoformat() == TWICE.literal


TWICE = RUBY("2001-03-28")
LATER = NEXT_MONTH("2003-10-24")


@pytest.mark.parametrize(("start", "weeks", "day"), [("2008-12-31", 1, JAVA_WEEKS("2009-01-07"))])
def test_weeks(start: str, weeks: int, day: Printed) -> None:
    assert add_weeks(date.fromisoformat(start), weeks).isoformat() == day.literal


def test_a_month_and_a_week() -> None:
    assert add_weeks(add_months(date(2003, 9, 17), 1), 1).isoformat() == LATER.literal


# Years and months as printed, days left aside.
@pytest.mark.parametrize(
    ("since", "on", "age"),
    [
        ("2001-01-01", "2003-09-17", HOW_OLD("2 years 8 months")),
        ("1978-04-05", "2003-09-17", HOW_OLD("25 years 5 months")),
        ("2010-01-15", "2011-03-18", JAVA_UNTIL("1 years 2 months")),
        ("2006-09-01", "2007-01-01", PGSQL_APRIL("0 years 4 months")),
        ("2005-09-05", "2007-01-01", PGSQL_APRIL("1 years 3 months")),
        ("2008-01-01", "2008-02-01", PGSQL_NOVEMBER("0 years 1 months")),
    ],
)
def test_whole_months_between_two_days(since: str, on: str, age: Printed) -> None:
    begins, ends = date.fromisoformat(since), date.fromisoformat(on)
    years, months = (int(word) for word in age.literal.split()[::2])
    assert maturity_months(begins, ends) == years * 12 + months


def test_what_is_due_today_is_not_overdue() -> None:
    end = retention_end(DONE, 3)
    assert end == date(2030, 5, 12)
    assert not overdue(end, end)
    assert overdue(end, date(2030, 5, 13))
