"""What every part of the second opinion works with: answers, comparisons, and the copied tables."""
import functools
from dataclasses import dataclass

from tables import rows_of

SLACK = 1e-9  # computed figures that differ by less are the same


class Open(Exception):
    """The case cannot be answered: the tables have no such cell, or the wire may not be there at all."""


class Silent(Exception):
    """The second opinion does not reach so far: nothing is compared."""


@dataclass(frozen=True)
class Answer:
    check: str
    subject: str
    verdict: str
    demand: float | None = None
    limit: float | None = None


def covers(large, small):
    return large >= small - SLACK * abs(small)


def at_least(check, subject, demand, limit):
    return Answer(check, subject, "pass" if covers(demand, limit) else "fail", demand, limit)


def at_most(check, subject, demand, limit):
    return Answer(check, subject, "pass" if covers(limit, demand) else "fail", demand, limit)


@functools.cache
def lookup(table, edition, column, **key):
    for row in rows_of(table, edition):
        if all(row[name] == value for name, value in key.items()):
            return row[column]
    return None


@functools.cache
def band(table, edition, column, value, through="through"):
    for row in rows_of(table, edition):
        if row[through] is None or value <= row[through] + SLACK:
            return row[column]
    return None


@functools.cache
def ratings(edition, kind):
    """Standard ratings of breakers or fuses, 240.6(A)."""
    return [row["rating"] for row in rows_of("standard-ratings", edition) if row[kind] == "yes"]


def next_rating(edition, kind, amperes):
    """The standard rating at or above a current; None above the largest."""
    return min((rating for rating in ratings(edition, kind) if covers(rating, amperes)), default=None)


def rating_within(edition, kind, amperes):
    """The largest standard rating that is not above a current; None below the smallest."""
    return max((rating for rating in ratings(edition, kind) if covers(amperes, rating)), default=None)


def metal(material):
    """Copper-clad aluminum is in the aluminum columns."""
    return "cu" if material == "copper" else "al"


def value_of(size):
    """Trade sizes as the copied tables read them: whole ones are numbers there."""
    return float(size) if size.isdigit() else size
