"""How long the work takes, in words."""

from __future__ import annotations

from ellwand.language import _
from ellwand.model.choices import Sewing


def hours_said(hours: tuple[float, float], sewing: Sewing) -> str:
    """'about 9 to 13 h by hand', in minutes where it is less than an hour, at the maker's pace where that is known."""
    time = _said(*hours)
    if sewing.timed is None:
        return _("about {time} by hand", time=time) if sewing.by == "hand" else _("about {time} by machine", time=time)
    if sewing.by == "hand":
        return _("about {time} by hand at your pace", time=time)
    return _("about {time} by machine at your pace", time=time)


def _said(low: float, high: float) -> str:
    per, unit = (60.0, "min") if high < 1 else (1.0, "h")
    least, most = (max(1, round(each * per)) for each in (low, high))
    if least == most:
        return f"{least} {unit}"
    return _("{least} to {most}", least=least, most=f"{most} {unit}")


def whose_pace(sewing: Sewing) -> str:
    """What the hours are those of, and how they become the maker's own."""
    if sewing.timed is not None:
        return _("The hours are reckoned from the seam you timed; buttonholes and other fastenings are given as usual.")
    section = "[sewing.timed]"
    if sewing.by == "hand":
        return _(
            "The hours are those of a quick hand and of one new to the work. Time one row of running stitch and write"
            " it into the sheet under {section}; then they are yours.",
            section=section,
        )
    return _(
        "The hours are those of a quick hand and of one new to the work. Time one seam, pinning and all, and write it"
        " into the sheet under {section}; then they are yours.",
        section=section,
    )
