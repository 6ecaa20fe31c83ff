"""The bench in the browser, served from this machine."""

from __future__ import annotations

import sys
from functools import partial
from typing import Annotated

import typer

from ellwand.language import _
from ellwand.web.settings import PORT


def serve(
    port: Annotated[int, typer.Option(min=0, max=65535, help="the port; 0 for any that is free")] = PORT,
    keep: Annotated[
        str | None,
        typer.Option(
            help="where things are kept, as in sqlite:///FILE or postgresql://HOST/NAME; left out: your data folder",
            show_default=False,
        ),
    ] = None,
    share: Annotated[
        bool, typer.Option("--share", help="for devices in the network too, each let in by a word")
    ] = False,
) -> int:
    """The bench: the whole job in the browser, on this machine alone."""
    from ellwand.web.serving import addresses, listening_at, names
    from ellwand.web.serving import serve as serve_bench
    from ellwand.web.settings import Settings

    with listening_at(port, share=share) as listening:
        held = listening.getsockname()[1]
        print(_("The bench is at {address}", address=f"http://127.0.0.1:{held}/"))
        print(_("Stop it with Ctrl-C; what is kept stays."), flush=True)
        links = [f"http://{each}:{held}/" for each in addresses()] if share else []
        if share:
            _say_shared(links)
        serve_bench(Settings(keep, names(share=share), held, share), listening, partial(_say_word, links))
    return 0


def _say_shared(links: list[str]) -> None:
    """What sharing means, and where."""
    if not links:
        print(_("This machine is in no network: nobody else can reach the bench."))
        return
    print(_("Others in this network reach it at {address}", address=", ".join(links)))
    print(
        _(
            "Whoever is let in sees and changes all that is kept here, body measurements too, and what is sent is not "
            "enciphered: share it only in a network that you trust."
        )
    )


def _say_word(links: list[str], word: str) -> None:
    """The word for the next device, and a square for its camera."""
    import segno

    if not links:
        return
    print(_("The word that lets in the next device: {word}", word=word), flush=True)
    segno.make(f"{links[0]}enter#{word}", micro=False).terminal(compact=True)
    sys.stdout.flush()
