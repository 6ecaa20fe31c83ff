"""The chalk list on a phone that lies beside the cloth: one piece at a time, in figures to be read from afar."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from ellwand.web.assets import asset
from ellwand.web.at_cloth import mark_of, on_cloths
from ellwand.web.pages.working import best_laid
from ellwand.web.rendering import page
from ellwand.web.state import read_state

WORKER = "cloth-side-worker.js"


def cloth_side(request: Request) -> Response:
    """Every piece of the garment as it is chalked, by the best lay that there is of it."""
    state = read_state(request.query_params)
    garment = best_laid(state, request)
    cloths, turns = on_cloths(garment)
    return page(
        request,
        "cloth_side.html",
        state=state,
        garment=garment,
        cloths=cloths,
        turns=turns,
        mark=mark_of(garment),
    )


def worker(request: Request) -> Response:
    """The script that keeps the page on the device, at an address from which it may."""
    found = asset(WORKER)
    assert found is not None
    return Response(found[0], media_type=found[1], headers={"Cache-Control": "no-cache"})
