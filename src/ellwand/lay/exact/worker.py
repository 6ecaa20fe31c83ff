"""The exact engine's process: a problem in on stdin, every shorter lay and longer bound out on stdout, as JSON lines.

Run as a script.  It ends when it is killed, when stdin is closed, or when lay and bound have met; lines on stdin after
the first tell it how short a lay there is already.
"""

from __future__ import annotations

import json
import os
import sys
import threading
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ellwand.lay.exact.narrowing import Heard


def main() -> None:
    """Read the problem and narrow it down."""
    sys.path += [sys.argv[1], str(Path(__file__).resolve().parents[3])]
    problem = json.loads(sys.stdin.readline())
    if hasattr(os, "nice"):
        os.nice(problem["nice"])

    # not before the paths are known
    from ellwand.lay.exact.narrowing import Heard, Narrowing
    from ellwand.lay.exact.places import from_json
    from ellwand.lay.task import Budget

    heard = Heard(**problem["known"])
    threading.Thread(target=_listen, args=(heard,), daemon=True).start()
    Narrowing(
        from_json(problem["kinds"]),
        problem["width"],
        Budget(problem["seconds"], problem["effort"], problem["seed"]),
        heard,
        lambda places, _: _tell({"lay": places}),
        lambda bound, why: _tell({"bound": bound, "why": why}),
    ).run()
    os._exit(0)


def _tell(what: dict[str, object]) -> None:
    print(json.dumps(what), flush=True)


def _listen(heard: Heard) -> None:
    for line in sys.stdin:
        told = json.loads(line)
        if told["length"] < heard.length:
            heard.length, heard.places = told["length"], told["places"]
    os._exit(0)


if __name__ == "__main__":
    main()
