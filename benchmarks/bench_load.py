"""Thirty people at the bench at once: how long they wait for a new drawing, and whether memory stays flat.

    python benchmarks/bench_load.py [SECONDS]

Serves the bench on a free port of this machine and lets 30 visitors choose (drawing, pieces, lay) and open pages, each
looking at what came for four to twelve seconds, as people do; the garments are of the whole choice space, each new.
Targets: 95 of 100 answers under 400 ms on two cores, lays aside, which are told to come; the server's memory in the
last third of the run at most a tenth over that of the second.  Then one visitor alone, as quickly as it can: 95 of 100
new drawings under 50 ms; and a first visit under 200 kB and half a second.
Every figure is also given as a ratio to an empty answer of the same server (a file of style, already read).
"""

from __future__ import annotations

import asyncio
import random
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from urllib.parse import urlencode

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ellwand.choose.form import pairs_of
from sweep import garment_at

PEOPLE = 30
WHO = ("joan-netmaker", "piers-ferryman", "wat-lanternboy", "ailith-saltpan", "hob-tallyman", "osric-bellman")
OPENED = ("/", "/people", "/garments", "/cloths", "/papers", "/people/new")


def queries(count: int) -> list[str]:
    """Garments of the whole choice space, as the bench's addresses."""
    out = []
    for n in range(count):
        tables, _person = garment_at(5, n)
        tables.pop("wearer", None)
        out.append(urlencode([("who", WHO[n % len(WHO)]), *pairs_of(tables)]))
    return out


async def visitor(
    client: httpx.AsyncClient, n: int, until: float, chosen: list[str], took: dict[str, list[float]]
) -> None:
    """Someone who chooses, looks and thinks."""
    dice = random.Random(n)
    await asyncio.sleep(dice.uniform(0, 8))
    while time.monotonic() < until:
        if dice.random() < 0.15:
            await asked(client, dice.choice(OPENED), "page", took)
        else:
            query = dice.choice(chosen)
            await asked(client, f"/parts?{query}", "drawing", took)
            await asked(client, f"/more?{query}", "pieces", took)
            await asked(client, f"/lay?{query}", "lay", took)
        await asyncio.sleep(dice.uniform(4, 12))


async def asked(client: httpx.AsyncClient, path: str, what: str, took: dict[str, list[float]]) -> None:
    """One answer, and how long it took."""
    start = time.perf_counter()
    answer = await client.get(path)
    took.setdefault(what, []).append(time.perf_counter() - start)
    assert answer.status_code < 500, (path, answer.status_code)


def memory(pid: int) -> float:
    """Of the server's process (MB)."""
    text = Path(f"/proc/{pid}/status").read_text()
    return int(next(line for line in text.splitlines() if line.startswith("VmRSS")).split()[1]) / 1024


def late(times: list[float]) -> float:
    """95 of 100 are quicker (ms)."""
    return statistics.quantiles(times, n=20)[-1] * 1000


async def crowd(home: str, pid: int, seconds: float) -> None:
    """Thirty at once."""
    took: dict[str, list[float]] = {}
    sizes: list[float] = []
    chosen = queries(600)
    limits = httpx.Limits(max_connections=PEOPLE, max_keepalive_connections=PEOPLE)
    async with httpx.AsyncClient(base_url=home, timeout=60, limits=limits) as client:
        until = time.monotonic() + seconds
        everyone = [asyncio.create_task(visitor(client, n, until, chosen, took)) for n in range(PEOPLE)]
        while time.monotonic() < until:
            await asyncio.sleep(1)
            sizes.append(memory(pid))
        await asyncio.gather(*everyone)
    every = [each for what, times in took.items() for each in times if what != "lay"]
    third = len(sizes) // 3
    print(
        f"{PEOPLE} people for {seconds:.0f} s: {len(every)} answers, 95 of 100 under {late(every):.0f} ms (target 400)"
    )
    for what, times in sorted(took.items()):
        middle = statistics.median(times) * 1000
        print(f"  {what:<7} {len(times):5}  median {middle:6.1f}  95 of 100 under {late(times):6.1f} ms")
    second, last = statistics.mean(sizes[third : 2 * third]), statistics.mean(sizes[2 * third :])
    print(
        f"  memory  {second:.0f} MB in the second third, {last:.0f} MB in the last: x {last / second:.2f} (target 1.10)"
    )


def alone(home: str) -> None:
    """One visitor, as quickly as it can."""
    with httpx.Client(base_url=home) as client:
        page = client.get("/")
        names = sorted({part.split('"')[0] for part in page.text.split('"/static/')[1:]})
        client.get(f"/static/{names[0]}")
        empty, drawn = [], []
        for query in queries(900)[600:]:
            start = time.perf_counter()
            client.get(f"/static/{names[0]}")
            middle = time.perf_counter()
            client.get(f"/parts?{query}")
            empty.append(middle - start)
            drawn.append(time.perf_counter() - middle)
        ratio = statistics.median(drawn) / statistics.median(empty)
        print(
            f"one alone, every garment new: drawing median {statistics.median(drawn) * 1000:.1f} ms,"
            f" 95 of 100 under {late(drawn):.1f} ms (target 50); x {ratio:.0f} an empty answer"
        )
        start = time.perf_counter()
        sent = 0
        for path in ("/", *(f"/static/{name}" for name in names), "/static/text.woff", "/static/strong.woff"):
            with client.stream("GET", path) as answer:
                sent += sum(len(part) for part in answer.iter_raw())
        print(f"a first visit: {sent / 1000:.0f} kB in {time.perf_counter() - start:.2f} s (targets 200 kB, 0.5 s)")


def main() -> None:
    """Serve, load and report."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 60.0
    with tempfile.TemporaryDirectory() as folder:
        keep = f"sqlite:///{folder}/kept.db"
        command = [sys.executable, "-m", "ellwand.cli", "serve", "--port", "0", "--keep", keep]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            assert process.stdout is not None
            home = process.stdout.readline().split()[-1].rstrip("/")
            httpx.get(home, timeout=60)
            alone(home)
            asyncio.run(crowd(home, process.pid, seconds))
            process.terminate()


if __name__ == "__main__":
    main()
