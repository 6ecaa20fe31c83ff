"""See it hang: the garment on a form with the wearer's girths, turned by a slider, reckoned in the workshop."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.language import language
from ellwand.web.making import tables_for, wearer_table
from ellwand.web.pages.classes import how_far, waited_for
from ellwand.web.pages.working import download, whose
from ellwand.web.rendering import page
from ellwand.web.state import State, read_state
from ellwand.web.work import Ask, Job
from ellwand.web.work.at_once import text_of
from ellwand.web.work.hanging import Hung

QUICK = 0.4
"""So long (s) the page waits for what may be there at once."""


def hanging(request: Request) -> Response:
    """How far it is; the views once they are there."""
    state, ask = _asked(request)
    shop = request.app.state.shop
    job: Job | None = shop.known(ask)
    if job is not None:
        waited_for(job)
        job.wait(QUICK)
    return page(
        request,
        "hanging.html",
        state=state,
        who=wearer_table(state.who, request.app.state.store).get("name", ""),
        how_far=how_far(job),
        said=(job.last("failed") or job.last("said") or "") if job else "",
        place=shop.place(job) if job else 0,
        hung=job.last("done") if job else None,
    )


def begin(request: Request) -> Response:
    """It is begun, or gone on with."""
    state, ask = _asked(request)
    waited_for(request.app.state.shop.ask(ask))
    return RedirectResponse(f"/hang?{state.query}", 303)


def stop(request: Request) -> Response:
    """Enough of it."""
    state, ask = _asked(request)
    job = request.app.state.shop.known(ask)
    if job is not None:
        request.app.state.shop.stop(job)
    return RedirectResponse(f"/hang?{state.query}", 303)


def view(request: Request) -> Response:
    """One of the views."""
    made = _made(request)
    number = request.path_params["number"]
    if number >= len(made.views):
        raise HTTPException(404)
    return Response(made.views[number], media_type="image/png")


def solid(request: Request) -> Response:
    """The garment in space, or its hem in numbers, as a file."""
    made = _made(request)
    name = request.path_params["name"]
    if name not in ("hang.glb", "hang.csv"):
        raise HTTPException(404)
    owner = whose(tables_for(read_state(request.query_params), request.app.state.store))
    return download(made.glb if name == "hang.glb" else made.csv, name, f"{owner}-{name}")


def _asked(request: Request) -> tuple[State, Ask]:
    state = read_state(request.query_params)
    return state, Ask("hang", text_of(tables_for(state, request.app.state.store)), language())


def _made(request: Request) -> Hung:
    """What was made of it.

    Raises HTTPException where nothing is there.
    """
    job = request.app.state.shop.known(_asked(request)[1])
    made: Hung | None = job.last("done") if job else None
    if made is None:
        raise HTTPException(404)
    return made
