"""Long work in processes of its own: listened to while it goes on, stopped at once, done once for all who ask."""

from __future__ import annotations

from ellwand.web.work.jobs import Ask
from ellwand.web.work.workshop import Event, Job, Workshop

__all__ = ["Ask", "Event", "Job", "Workshop"]
