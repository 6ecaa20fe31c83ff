"""Stores for the tests: files, and a real PostgreSQL server that is started for them."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import OperationalError

OTHER = 65534
"""Root may not run the server: 'nobody' does it."""
QUICK = ("fsync=off", "full_page_writes=off", "max_connections=30", "shared_buffers=4MB")
_numbers = count(1)


def programs() -> Path:
    """The folder of initdb and postgres: the one that dev.py names, or the one on PATH."""
    named = os.environ.get("ELLWAND_POSTGRES")
    found = shutil.which("initdb", path=named) if named else shutil.which("initdb")
    if not found:
        pytest.fail("no PostgreSQL: run 'python3 dev.py test', or name the folder of its initdb in ELLWAND_POSTGRES")
    return Path(found).resolve().parent


@contextmanager
def server() -> Iterator[str]:
    """A PostgreSQL server with nothing in it, at a URL; it is stopped and its files are removed at the end."""
    with tempfile.TemporaryDirectory(prefix="ellwand-pg-") as folder:
        home = Path(folder)
        other: dict[str, Any] = {}
        at = programs()
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            other = {"user": OTHER, "group": OTHER, "extra_groups": []}
            os.chown(home, OTHER, OTHER)
            at = _reachable(at, home, other)
        usual = {**other, "cwd": home, "stdin": subprocess.DEVNULL}
        data, log = home / "data", home / "log"
        make = (
            "initdb",
            "--pgdata",
            str(data),
            "-U",
            "ellwand",
            "-A",
            "trust",
            "-E",
            "UTF8",
            "--locale=C",
            "--no-sync",
        )
        subprocess.run([str(at / make[0]), *make[1:]], check=True, stdout=subprocess.DEVNULL, **usual)
        port = _free_port()
        options = [word for each in (*QUICK, "unix_socket_directories=", f"port={port}") for word in ("-c", each)]
        with log.open("wb") as written:
            command = [str(at / "postgres"), "-D", str(data), *options]
            running = subprocess.Popen(command, stdout=written, stderr=written, **usual)
        try:
            url = f"postgresql://ellwand@127.0.0.1:{port}/postgres"
            _wait(url, running, log)
            yield url
        finally:
            running.terminate()
            try:
                running.wait(10)
            except subprocess.TimeoutExpired:
                running.kill()
                running.wait()


def fresh_schema(server_url: str) -> str:
    """The URL of a place of its own in the server."""
    name = f"place_{next(_numbers)}"
    engine = create_engine(server_url.replace("postgresql:", "postgresql+psycopg:"))
    with engine.begin() as connection:
        connection.execute(text(f"CREATE SCHEMA {name}"))
    engine.dispose()
    return f"{server_url}?options=-csearch_path%3D{name}"


def _reachable(at: Path, home: Path, other: dict[str, Any]) -> Path:
    """The programs where the other user can run them: a copy, where they lie in a folder closed to it."""
    try:
        subprocess.run([str(at / "postgres"), "--version"], check=True, stdout=subprocess.DEVNULL, **other)
    except (OSError, subprocess.CalledProcessError):
        return Path(shutil.copytree(at.parent, home / "programs", symlinks=True)) / at.name
    return at


def _free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


def _wait(url: str, running: subprocess.Popen[bytes], log: Path) -> None:
    engine = create_engine(url.replace("postgresql:", "postgresql+psycopg:"))
    for _ in range(600):
        try:
            engine.connect().close()
            break
        except OperationalError:
            if running.poll() is not None:
                pytest.fail(f"PostgreSQL ended by itself: {log.read_text(errors='replace')[-2000:]}")
            time.sleep(0.05)
    else:
        pytest.fail("PostgreSQL did not start within 30 seconds")
    engine.dispose()
