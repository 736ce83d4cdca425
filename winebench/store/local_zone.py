"""This computer's own time zone, with its clock changes to come."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, tzinfo


class LocalZone(tzinfo):
    """The system's zone by its own rules: a plain offset would be an hour off after a change."""

    def utcoffset(self, dt: datetime | None) -> timedelta | None:
        """Return the offset from UTC at that wall time."""
        return None if dt is None else dt.replace(tzinfo=None).astimezone().utcoffset()

    def dst(self, dt: datetime | None) -> None:
        """Return None: nobody here asks which part of the offset is summer time."""

    def tzname(self, dt: datetime | None) -> str | None:
        """Return the system's short name of the zone at that wall time."""
        return None if dt is None else dt.replace(tzinfo=None).astimezone().tzname()

    def fromutc(self, dt: datetime) -> datetime:
        """Return the wall time of a UTC time that carries this zone."""
        here = dt.replace(tzinfo=UTC).astimezone()
        wall = here.replace(tzinfo=self, fold=0)
        return wall if wall.utcoffset() == here.utcoffset() else wall.replace(fold=1)


LOCAL_ZONE = LocalZone()
