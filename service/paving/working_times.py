"""Working times: the hours of the days on which a gang works, counted from the start of its first day.

first day            second day
|#######|...............|#######|...........
0      8 h             24 h    32 h
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from service.paving.durations import DAY, DAYS_IN_WEEK


@dataclass(frozen=True, slots=True)
class Spell:
    """A stretch of work within one day, from the start of the job [s]."""

    start: float
    end: float


@dataclass(frozen=True, slots=True)
class WorkingTimes:
    """When a gang works.

    Parameters
    ----------
    day : float
        Work in a working day [s], above 0.
    days_per_week : int
        Days worked in a week, from Monday on.
    first_weekday : int
        Day of the week on which the job starts, 0 for Monday.
    """

    day: float
    days_per_week: int
    first_weekday: int = 0

    def works_on(self, number: int) -> bool:
        """Whether the gang works on a day, counted from 0."""
        return (self.first_weekday + number) % DAYS_IN_WEEK < self.days_per_week

    def spells(self, moment: float, work: float) -> Iterator[Spell]:
        """Do some work [s], from a moment [s] on, within working hours.

        Examples
        --------
        >>> times = WorkingTimes(8 * 3600.0, 5)
        >>> [(spell.start / 3600, spell.end / 3600) for spell in times.spells(6 * 3600.0, 5 * 3600.0)]
        [(6.0, 8.0), (24.0, 27.0)]
        """
        number, left = math.floor(moment / DAY), work
        while left > 0:
            opens = max(moment, number * DAY)
            room = number * DAY + self.day - opens
            # A stretch that is only the rounding of a sum is no stretch.
            if self.works_on(number) and room > self.day * 1e-9:
                done = left if left <= room + self.day * 1e-9 else room
                yield Spell(opens, opens + done)
                left -= done
            number += 1
