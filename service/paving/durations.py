"""Durations that have names, in seconds."""

from datetime import timedelta

HOUR = timedelta(hours=1).total_seconds()
DAY = timedelta(days=1).total_seconds()
DAYS_IN_WEEK = timedelta(weeks=1) // timedelta(days=1)
