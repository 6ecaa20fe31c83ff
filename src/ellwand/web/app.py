"""The bench as one application: its routes in one list, and what stands round all of them."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from urllib.parse import urlsplit

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from ellwand.errors import BadInput
from ellwand.keep import Missing, open_store
from ellwand.language import _, known
from ellwand.web.assets import asset
from ellwand.web.door import Door
from ellwand.web.given import Given, posted
from ellwand.web.guard import Guard, too_much_said
from ellwand.web.pages import (
    basket,
    bench,
    classes,
    cloth_side,
    cloths,
    comparing,
    garments,
    hanging,
    keeping,
    measuring,
    papers,
    people,
    picturing,
    sharing,
    sheets,
    working,
)
from ellwand.web.rendering import page
from ellwand.web.settings import Settings
from ellwand.web.speech import COOKIE, Speech
from ellwand.web.work import Workshop
from ellwand.web.work.quick import pool

YEAR = 31536000


class Bench(Starlette):
    """The bench: what guards it stands outside of all else, what answers faults included."""

    def build_middleware_stack(self) -> ASGIApp:
        return Speech(Guard(super().build_middleware_stack(), self.state.settings, self.state.door))


def create_app(settings: Settings, told: Callable[[str], None] = lambda word: None) -> Starlette:
    """The bench; ``app.state`` has what is kept and the workshop; ``told`` hears each new word of a shared one.

    Raises BadInput where what is kept cannot be opened.
    """
    app = Bench(
        routes=[
            Route("/", bench.bench),
            Route("/parts", bench.parts),
            Route("/more", bench.more),
            Route("/lay", bench.lay),
            Route("/lay.svg", working.lay_svg_now),
            Route("/lay/events", working.lay_events),
            Route("/lay/stop", working.lay_stop, methods=["POST"]),
            Route("/steps/{n:int}.svg", bench.step_picture),
            Route("/hang", hanging.hanging),
            Route("/hang", hanging.begin, methods=["POST"]),
            Route("/hang/stop", hanging.stop, methods=["POST"]),
            Route("/hang/views/{number:int}.png", hanging.view),
            Route("/hang/files/{name}", hanging.solid),
            Route("/picture", picturing.picture),
            Route("/picture/exercises/{number:int}.svg", picturing.exercise_svg),
            Route("/picture/sheet.toml", picturing.offered_sheet),
            Route("/papers", papers.papers_page),
            Route("/papers/{name}", working.paper),
            Route("/papers.zip", working.papers),
            Route("/cloth-side", cloth_side.cloth_side),
            Route("/cloth-side.js", cloth_side.worker),
            Route("/people", people.people),
            Route("/people", measuring.save_person, methods=["POST"]),
            Route("/people/new", measuring.new_person),
            Route("/people/check", measuring.check, methods=["POST"]),
            Route("/people/take-in", people.take_in, methods=["POST"]),
            Route("/people/form.pdf", people.form),
            Route("/people/tape/{field}.svg", measuring.tape),
            Route("/people/demo/{who}", people.copy_demo, methods=["POST"]),
            Route("/people/{id}", measuring.one_person),
            Route("/people/{id}", measuring.save_person, methods=["POST"]),
            Route("/people/{id}/sheet.toml", people.sheet),
            Route("/people/{id}/history", people.versions),
            Route("/people/{id}/back", people.go_back, methods=["POST"]),
            Route("/garments", garments.garments),
            Route("/garments", garments.save_garment, methods=["POST"]),
            Route("/garments/compare", comparing.compare),
            Route("/garments/{id}", garments.open_garment),
            Route("/garments/{id}/history", garments.versions),
            Route("/garments/{id}/copy", garments.copy_garment, methods=["POST"]),
            Route("/garments/{id}/undo", garments.undo_garment, methods=["POST"]),
            Route("/garments/{id}/back", garments.go_back, methods=["POST"]),
            Route("/cloths", cloths.cloths),
            Route("/cloths", cloths.save_cloth, methods=["POST"]),
            Route("/cloths/new", cloths.new_cloth),
            Route("/cloths/use", cloths.use_cloth),
            Route("/cloths/{id}", cloths.one_cloth),
            Route("/cloths/{id}", cloths.save_cloth, methods=["POST"]),
            Route("/classes", classes.classes),
            Route("/classes", classes.save_class, methods=["POST"]),
            Route("/classes/new", classes.new_class),
            Route("/classes/{id}", classes.one_class),
            Route("/classes/{id}", classes.save_class, methods=["POST"]),
            Route("/classes/{id}/change", classes.change_class),
            Route("/classes/{id}/order.csv", classes.order),
            Route("/classes/{id}/pack.zip", classes.pack),
            Route("/classes/{id}/papers", classes.packing),
            Route("/classes/{id}/papers", classes.begin_packing, methods=["POST"]),
            Route("/classes/{id}/papers/stop", classes.stop_packing, methods=["POST"]),
            Route("/classes/{id}/forms.pdf", classes.forms),
            Route("/sheet.toml", sheets.sheet),
            Route("/sheets", sheets.ask_for_sheet),
            Route("/sheets", sheets.take_in, methods=["POST"]),
            Route("/keeping", keeping.keeping),
            Route("/keeping/copy", keeping.copy, methods=["POST"]),
            Route("/keeping/bring-back", keeping.bring_back, methods=["POST"]),
            Route("/keeping/{shelf}/{id}/take-out", keeping.take_thing_out, methods=["POST"]),
            Route("/people/{id}/copy.json", keeping.copy_of_person),
            Route("/{shelf}/{id}/throw", basket.throw, methods=["POST"]),
            Route("/{shelf}/{id}/take-out", basket.take_out_again, methods=["POST"]),
            Route("/{shelf}/{id}/erase", keeping.ask_to_erase),
            Route("/{shelf}/{id}/erase", keeping.erase_thing, methods=["POST"]),
            Route("/language", choose_language, methods=["POST"]),
            Route("/share", sharing.share),
            Route("/enter", sharing.enter),
            Route("/enter", sharing.try_word, methods=["POST"]),
            Route("/static/{name}", static),
        ],
        middleware=[Middleware(GZipMiddleware, minimum_size=1000, compresslevel=5)],
        lifespan=_workshop,
        exception_handlers={Missing: _gone, BadInput: _refused, HTTPException: _not_there, Exception: _at_fault},
    )
    app.state.settings = settings
    app.state.door = Door(told) if settings.share else None
    app.state.store = open_store(settings.keep)
    app.state.shop = Workshop(settings.workers)
    app.state.quick = pool()
    return app


@asynccontextmanager
async def _workshop(app: Starlette) -> AsyncIterator[None]:
    """While the bench is served."""
    yield
    app.state.quick.shutdown(wait=False, cancel_futures=True)
    app.state.shop.close()
    app.state.store.close()


def static(request: Request) -> Response:
    """A file of style, script or letters."""
    found = asset(request.path_params["name"])
    if found is None:
        raise HTTPException(404)
    return Response(found[0], media_type=found[1], headers={"Cache-Control": f"public, max-age={YEAR}, immutable"})


@posted
def choose_language(request: Request, given: Given) -> Response:
    """Keeps the language in a cookie and goes back to the page."""
    name = known(given.text("language"))
    answer = RedirectResponse(_back(request), 303)
    answer.set_cookie(COOKIE, name, max_age=YEAR, httponly=True, samesite="strict")
    return answer


def _back(request: Request) -> str:
    """The path of ours that the visitor came from."""
    came = urlsplit(request.headers.get("referer", ""))
    if came.netloc != request.url.netloc or not came.path.startswith("/") or came.path.startswith("//"):
        return "/"
    return came.path + (f"?{came.query}" if came.query else "")


def _refused(request: Request, error: Exception) -> Response:
    return _plainly(request, 400, _("That will not do"), str(error))


def _gone(request: Request, error: Exception) -> Response:
    return _plainly(request, 404, _("Not here"), str(error))


def _not_there(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 404
    said = {
        404: _("There is no such page."),
        405: _("This page cannot be used so."),
        408: _("What was sent did not arrive."),
        413: too_much_said(),
    }
    return _plainly(request, status, _("Not here"), said.get(status, _("This cannot be done.")))


def _at_fault(request: Request, error: Exception) -> Response:
    sentence = _("This is a fault of the program, not of your choices; what you saved is safe.")
    return _plainly(request, 500, _("Something broke"), sentence)


def _plainly(request: Request, status: int, heading: str, sentence: str) -> Response:
    """One sentence on a page of its own, with the way back."""
    back = {"there": "/", "name": _("To the bench")}
    return page(request, "plain.html", status, heading=heading, sentence=sentence, **back)
