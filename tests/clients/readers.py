"""Reads iCalendar files with three independent readers and prints what each saw, as JSON:
{file: {reader: [[uid, title, start, description], ...]}}; start as YYYYMMDDTHHMMSSZ or YYYYMMDD.
"""

import json
import sys
from datetime import datetime, timezone

import gi
import icalendar
import vobject

gi.require_version("ICalGLib", "3.0")
from gi.repository import ICalGLib  # noqa: E402


def stamp(value):
    if isinstance(value, datetime):
        return value.astimezone(timezone.utc).strftime("%Y%m%dT%H%M%SZ")
    return value.strftime("%Y%m%d")


def with_icalendar(text):
    calendar = icalendar.Calendar.from_ical(text)
    return [
        [str(e["UID"]), str(e["SUMMARY"]), stamp(e["DTSTART"].dt), str(e.get("DESCRIPTION", ""))]
        for e in calendar.walk("VEVENT")
    ]


def with_vobject(text):
    events = []
    for calendar in vobject.readComponents(text):
        calendar.validate(raiseException=True)
        for e in calendar.contents.get("vevent", []):
            description = e.description.value if hasattr(e, "description") else ""
            events.append([e.uid.value, e.summary.value, stamp(e.dtstart.value), description])
    return events


def with_libical(text):
    calendar = ICalGLib.Component.new_from_string(text)
    if calendar is None:
        raise ValueError("libical reads nothing")
    errors = calendar.count_errors()
    if errors:
        raise ValueError(f"libical counts {errors} errors")
    kind = ICalGLib.ComponentKind.VEVENT_COMPONENT
    events = []
    event = calendar.get_first_component(kind)
    while event is not None:
        events.append(
            [
                event.get_uid(),
                event.get_summary(),
                event.get_dtstart().as_ical_string(),
                event.get_description() or "",
            ]
        )
        event = calendar.get_next_component(kind)
    return events


readers = {"icalendar": with_icalendar, "vobject": with_vobject, "libical": with_libical}
seen = {}
for path in sys.argv[1:]:
    with open(path, encoding="utf-8", newline="") as file:
        text = file.read()
    seen[path] = {}
    for name, reader in readers.items():
        try:
            seen[path][name] = reader(text)
        except Exception as error:  # what a reader refuses is a result to be shown
            seen[path][name] = f"{type(error).__name__}: {error}"
json.dump(seen, sys.stdout)
