"""Pages from their templates, in the language spoken."""

from __future__ import annotations

from datetime import datetime
from functools import cache
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import HTMLResponse

from ellwand.language import _, language, languages, pgettext, plural
from ellwand.model.names import named
from ellwand.units import format_length
from ellwand.web.assets import address

if TYPE_CHECKING:
    import jinja2


def page(request: Request, template: str, status: int = 200, **values: Any) -> HTMLResponse:
    """A whole page."""
    return HTMLResponse(fragment(template, path=request.url.path, **values), status)


def fragment(template: str, **values: Any) -> str:
    """A template filled in; whatever is not marked safe is escaped."""
    return _templates().get_template(template).render(language=language(), **values)


@cache
def _templates() -> jinja2.Environment:
    import jinja2

    templates = jinja2.Environment(
        loader=jinja2.PackageLoader("ellwand.web"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    templates.globals.update(
        _=_,
        plural=plural,
        pgettext=pgettext,
        named=named,
        address=address,
        languages=languages,
        length=format_length,
        day=day,
    )
    templates.filters["capital"] = capital
    return templates


def day(when: datetime, hour: bool = False) -> str:
    """When it was, at the clock of this machine."""
    from babel.dates import format_date, format_datetime

    here = when.astimezone()
    return format_datetime(here, "short", locale=language()) if hour else format_date(here, "medium", locale=language())


def capital(text: str) -> str:
    """The text as it begins a line."""
    return text[:1].upper() + text[1:]
