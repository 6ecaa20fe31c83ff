"""``ellwand serve`` as a process: it answers, says what is wrong in a sentence, and leaves nothing behind."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

from ellwand.keep import Person, every, open_store


@contextmanager
def serving(keep: Path, *more: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    command = [sys.executable, "-m", "ellwand.cli", "serve", "--port", "0", "--keep", f"sqlite:///{keep}", *more]
    said = keep.with_suffix(".txt")
    with said.open("w") as out, subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT, text=True) as process:
        try:
            yield process, address(said)
        finally:
            process.kill()


def address(said: Path) -> str:
    """Where it says that it is."""
    end = time.monotonic() + 60
    while not (found := re.search(r"http://\S+?(?=/\s)", said.read_text())):
        assert time.monotonic() < end, said.read_text()
        time.sleep(0.05)
    return found[0]


def test_it_is_bound_to_this_machine_and_ends_in_good_order(tmp_path: Path) -> None:
    with serving(tmp_path / "kept.db") as (process, home):
        assert home.startswith("http://127.0.0.1:")
        assert "Ellwand" in httpx.get(home, timeout=120).text
        # no other program can have the port, and that is said in a sentence
        port = home.rpartition(":")[2]
        second = [sys.executable, "-m", "ellwand.cli", "serve", "--port", port]
        refused = subprocess.run(second, capture_output=True, text=True, timeout=60, check=False)
        assert refused.returncode == 2
        assert f"--port: {port} is taken" in refused.stderr
        process.send_signal(signal.SIGINT)
        assert process.wait(30) == 0
        assert "Traceback" not in (tmp_path / "kept.txt").read_text()


def test_what_was_answered_is_there_after_a_kill(tmp_path: Path) -> None:
    """Killed again and again while people are being saved: all whose saving was answered are kept."""
    keep = tmp_path / "kept.db"
    saved = 0
    for turn in range(2):
        with serving(keep) as (process, home):
            with httpx.Client(base_url=home, headers={"Origin": home}, timeout=120) as client:
                client.get("/people")
                end = time.monotonic() + 0.4 + 0.2 * turn
                while time.monotonic() < end:
                    who = {"name": f"Player {saved}", "height": "170", "bust_girth": "92"}
                    saved += client.post("/people", data=who).status_code == 303
            process.send_signal(signal.SIGKILL)
            process.wait(20)
    assert saved > 5
    with open_store(f"sqlite:///{keep}") as store:
        names = {each.name for each in every(store, Person)}
    assert {f"Player {n}" for n in range(saved)} <= names


@pytest.mark.parametrize("keep", ["postgresql://127.0.0.1:1/nothing", "sqlite:////proc/nowhere.db", "nonsense://x"])
def test_what_cannot_be_opened_is_said_in_a_sentence(keep: str) -> None:
    command = [sys.executable, "-m", "ellwand.cli", "serve", "--port", "0", "--keep", keep]
    refused = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert refused.returncode == 2
    assert refused.stderr.strip().count("\n") == 0
    assert "Traceback" not in refused.stderr
