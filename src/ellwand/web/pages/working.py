"""Long work asked for from a page: better lays as they are found, and papers as they are made."""

from __future__ import annotations

import asyncio
import json
import pickle
import re
from collections.abc import AsyncIterator, Mapping
from pathlib import PurePath
from typing import Any, Final, Literal

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse

from ellwand.errors import BadInput
from ellwand.language import _, language
from ellwand.model.garment import Garment
from ellwand.publish.letters import plain_name
from ellwand.web.making import laid_for, tables_for
from ellwand.web.state import State, read_state
from ellwand.web.work import Ask, Job, Workshop
from ellwand.web.work.at_once import text_of

OFTEN: Final = 0.15
"""So often (s) it is looked whether a job has told anything."""
HEARTBEAT: Final = 10.0
KINDS: Final = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".csv": "text/csv; charset=utf-8",
    ".md": "text/markdown; charset=utf-8",
    ".json": "application/json",
    ".dxf": "image/vnd.dxf",
    ".zip": "application/zip",
    ".toml": "application/toml",
    ".glb": "model/gltf-binary",
}
SHOWN: Final = (".pdf", ".svg")
"""What a browser shows by itself; everything else is saved."""


def lay_asked(state: State, request: Request) -> Ask:
    """The search for better lays of this garment."""
    return _lay_of(tables_for(state, request.app.state.store))


def _lay_of(tables: Mapping[str, Any]) -> Ask:
    return Ask("lay", text_of(tables), language())


async def lay_events(request: Request) -> Response:
    """Better lays, each as it is found (server-sent events)."""
    shop: Workshop = request.app.state.shop
    job = shop.ask(await run_in_threadpool(_asked_here, request))
    heard = request.headers.get("last-event-id", "")
    first = int(heard) + 1 if heard.isascii() and heard.isdigit() and len(heard) < 6 else 0
    return StreamingResponse(_told(request, shop, job, first), media_type="text/event-stream")


async def _told(request: Request, shop: Workshop, job: Job, first: int) -> AsyncIterator[str]:
    job.listeners += 1
    quiet = 0.0
    waiting = -1
    try:
        at = first
        while not await request.is_disconnected():
            events = job.events[at:]
            for event in events:
                value = event.value["cloth"] if event.kind == "lay" else event.value
                yield f"id: {at}\nevent: {event.kind}\ndata: {json.dumps(value)}\n\n"
                at += 1
            if job.over and at >= len(job.events):
                # stopped from elsewhere, it has nothing more to tell either
                if not job.told("done") and not job.told("failed"):
                    yield "event: done\ndata: null\n\n"
                return
            place = shop.place(job)
            if place and place != waiting:
                waiting = place
                said = json.dumps(_("waiting for a free hand; {count} before it", count=place - 1))
                yield f"event: said\ndata: {said}\n\n"
            quiet = 0.0 if events else quiet + OFTEN
            if quiet > HEARTBEAT:
                quiet = 0.0
                yield ": still at it\n\n"
            await asyncio.sleep(OFTEN)
    finally:
        job.leave()


async def lay_stop(request: Request) -> Response:
    """The search ends with what it has."""
    shop: Workshop = request.app.state.shop
    job = shop.known(await run_in_threadpool(_asked_here, request))
    if job is not None:
        shop.stop(job)
    return JSONResponse({"stopped": job is not None})


def lay_svg_now(request: Request) -> Response:
    """The first lay as a picture, for a page without scripts."""
    from ellwand.publish import lay_svg

    garment = laid_for(read_state(request.query_params), request.app.state.store)
    return Response(lay_svg(garment, garment.lays[0]), media_type="image/svg+xml")


async def paper(request: Request) -> Response:
    """One file of the garment, by the best lay that there is of it."""
    name = request.path_params["name"]
    if not re.fullmatch(r"[a-z0-9-]{1,40}\.[a-z]{2,4}", name):
        raise HTTPException(404)
    ask, owner = await run_in_threadpool(_papers_asked, request, "file", name)
    return download(await done(request, ask), name, f"{owner}-{name}")


async def papers(request: Request) -> Response:
    """Every file of the garment in one archive."""
    ask, owner = await run_in_threadpool(_papers_asked, request, "all")
    return download(await done(request, ask), "papers.zip", f"{owner}.zip")


def best_laid(state: State, request: Request) -> Garment:
    """The garment by the best lay that there is of it, else as quickly laid as can be.

    Raises BadInput with one sentence.
    """
    found = _searched(lay_asked(state, request), request)
    best: Garment | None = pickle.loads(found) if found else None  # what one of our own processes made
    return best or laid_for(state, request.app.state.store)


def _asked_here(request: Request) -> Ask:
    return lay_asked(read_state(request.query_params), request)


def _papers_asked(request: Request, what: Literal["file", "all"], name: str = "") -> tuple[Ask, str]:
    """What is asked of the workshop, and whose it is, for the name of the file."""
    tables = tables_for(read_state(request.query_params), request.app.state.store)
    searched = _lay_of(tables)
    return Ask(what, searched.tables, searched.language, name, _searched(searched, request)), whose(tables)


def _searched(ask: Ask, request: Request) -> bytes:
    """The garment as the search left it; b'' where none was made."""
    job = request.app.state.shop.known(ask)
    best = job.last("lay") if job is not None else None
    return best["garment"] if best else b""


async def done(request: Request, ask: Ask) -> Any:
    """What the job makes.

    Raises BadInput with its sentence where it cannot.
    """
    job = request.app.state.shop.ask(ask)
    job.listeners += 1
    try:
        while not job.over and not await request.is_disconnected():
            await asyncio.sleep(OFTEN / 3)
    finally:
        job.leave()
    made = job.last("done")
    if made is None:
        raise BadInput("", job.last("failed") or _("The work was stopped; ask for it again."))
    return made


def whose(tables: Mapping[str, Any]) -> str:
    """A name for files: the wearer's and the garment's, in plain letters."""
    name = f"{tables['wearer'].get('name', '')} {tables.get('garment', {}).get('style', 'tunic')}"
    return plain_name(name)


def download(made: bytes, name: str, saved_as: str) -> Response:
    """A file: shown where a browser can, else saved under a name that tells what it is."""
    ending = PurePath(name).suffix
    way = "inline" if ending in SHOWN else "attachment"
    headers = {"Content-Disposition": f'{way}; filename="{saved_as}"'}
    return Response(made, media_type=KINDS.get(ending, "application/octet-stream"), headers=headers)
