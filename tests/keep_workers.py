"""What other processes do with a store, and may be killed doing."""

from __future__ import annotations

import multiprocessing
import os
import sys
from dataclasses import replace
from functools import cache
from multiprocessing.connection import Connection
from typing import Any

import pytest

from ellwand.errors import BadInput
from ellwand.keep import KeptCloth, Stale, get, open_store, save


@cache
def other_processes() -> Any:
    """Makes processes that share no memory with this one; quick where the system can fork them from a clean one."""
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    from multiprocessing import forkserver

    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload([__name__, "sqlalchemy.dialects.sqlite", "psycopg", "alembic.command"])
    with pytest.MonkeyPatch.context() as patch:  # the clean process knows no other path
        patch.setenv("PYTHONPATH", os.pathsep.join(sys.path))
        forkserver.ensure_running()
    return context


def pair(number: int) -> dict[str, object]:
    """A table that shows when it is half: two long equal parts."""
    return {"number": number, "left": f"{number} " * 2000, "right": f"{number} " * 2000}


def save_without_end(place: str, id: str, answers: Connection) -> None:
    """Save version after version, and tell each when it is kept."""
    store = open_store(place)
    thing = get(store, KeptCloth, id)
    while True:
        thing = save(store, replace(thing, table=pair(thing.version + 1)))
        answers.send(thing.version)


def count_up(place: str, id: str, times: int) -> None:
    """Add one to the number that others add to as well, so many times."""
    store = open_store(place)
    while times:
        thing = get(store, KeptCloth, id)
        try:
            save(store, replace(thing, table={"number": int(str(thing.table["number"])) + 1, "by": os.getpid()}))
            times -= 1
        except Stale:
            continue


def open_only(place: str, answers: Connection) -> None:
    """Open it, tell that it is open, and wait to be told to end."""
    with open_store(place) as store:
        answers.send(save(store, KeptCloth(name="of another process")).id)
        answers.recv()


def save_in_little_room(place: str, room: int, answers: Connection) -> None:
    """Save until a file may grow no further, then tell how many were kept and what was said."""
    store = open_store(place)
    if sys.platform == "win32":
        with store.outside() as connection:
            connection.exec_driver_sql(f"PRAGMA max_page_count = {room // 4096}")
    else:
        import resource

        resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
    kept = 0
    try:
        while True:
            save(store, KeptCloth(name="Wool", table=pair(kept)))
            kept += 1
    except BadInput as said:
        answers.send((kept, type(said).__name__, str(said)))
