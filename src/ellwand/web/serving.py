"""The bench served: to this machine, or to the network around it."""

from __future__ import annotations

import contextlib
import socket
import threading
from collections.abc import Callable, Iterator
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.web.settings import LOOPBACK, Settings

AT_ONCE: Final = 300
"""So many connections; more are asked to wait."""


def serve(settings: Settings, listening: socket.socket, told: Callable[[str], None]) -> None:
    """Serves the bench until it is stopped; ``told`` hears each word of a shared one.

    Raises BadInput where what is kept cannot be opened.
    """
    import uvicorn

    from ellwand.web.app import create_app
    from ellwand.web.assets import prepared
    from ellwand.web.work.quick import ready

    app = create_app(settings, told)
    # before anyone waits for it
    app.state.quick.submit(ready)
    threading.Thread(target=prepared, daemon=True).start()
    if app.state.door is not None:
        told(app.state.door.word)
    config = uvicorn.Config(
        app,
        http="h11",
        ws="none",
        log_level="warning",
        access_log=False,
        server_header=False,
        limit_concurrency=AT_ONCE,
        timeout_keep_alive=20,
        timeout_graceful_shutdown=2,
    )
    # at Ctrl-C uvicorn ends in good order, and then raises it again
    with contextlib.suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[listening])


@contextlib.contextmanager
def listening_at(port: int, *, share: bool) -> Iterator[socket.socket]:
    """The port held for the bench; 0 is any free one.

    Raises BadInput where another program has it.
    """
    # named as TCP, so that answers are not held back for more (TCP_NODELAY)
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    with made:
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            made.bind(("0.0.0.0" if share else "127.0.0.1", port))
            made.listen(128)
        except OSError:
            raise BadInput(
                "--port", _("{port} is taken by another program or not allowed", port=port), _("name another one")
            ) from None
        yield made


def addresses() -> tuple[str, ...]:
    """This machine's own address in the network around it; nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            # an address for documentation (RFC 5737): only the way out is looked up
            asked.connect(("192.0.2.1", 9))
        except OSError:
            return ()
        own = str(asked.getsockname()[0])
    return () if own.startswith("127.") else (own,)


def names(*, share: bool) -> tuple[str, ...]:
    """By what names the bench may be asked for."""
    return (*LOOPBACK, *addresses()) if share else LOOPBACK
