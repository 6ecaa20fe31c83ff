"""dev.py: which Python it takes, when it sets up again, and what a checkout may and may not say."""

import ast
import fnmatch
import importlib.util
import re
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]


def load_dev() -> ModuleType:
    spec = importlib.util.spec_from_file_location("dev", ROOT / "dev.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


dev = load_dev()


def python(version: str, released: bool = True):
    return dev.Python(tuple(map(int, version.split("."))), released, f"python{version}")


def test_the_newest_python_is_taken_by_number_not_by_spelling() -> None:
    # Source: as text '3.9.18' > '3.13.0' and '3.12.9' > '3.12.10'.
    found = [python(v) for v in ("3.9.18", "3.12.9", "3.12.10", "3.11.7")]
    assert dev.newest(found).path == "python3.12.10"


def test_pythons_without_wheels_and_unreleased_ones_are_passed_over() -> None:
    found = [python("3.15.0"), python("3.14.0", released=False), python("3.10.13"), python("3.11.2")]
    assert dev.newest(found).path == "python3.11.2"


@pytest.mark.parametrize("versions", [[], ["3.10.13"], ["2.7.18", "3.6.15"], ["3.15.1"]])
def test_with_no_fitting_python_one_sentence_says_which_to_install(versions: list[str]) -> None:
    with pytest.raises(dev.Trouble, match=r"from 3\.11 to 3\.14: install one"):
        dev.newest([python(v) for v in versions])


def test_a_python_counts_only_if_it_runs(tmp_path: Path) -> None:
    # Source: the interpreter's own account of itself; a shim that fails, as pyenv's do when switched off.
    shim = tmp_path / "python3.13"
    shim.write_text("#!/bin/sh\nexit 127\n")
    shim.chmod(0o755)
    assert dev.probe(str(shim)) is None
    assert dev.probe(str(tmp_path / "nowhere")) is None
    me = dev.probe(sys.executable)
    assert me.version == sys.version_info[:3]
    assert me.released == (sys.version_info.releaselevel == "final")


def test_an_old_python_can_read_the_file_and_is_refused_in_one_sentence() -> None:
    # Source: Python's grammar of 3.6, as ast keeps it; the refusal itself is run with the bound raised.
    source = (ROOT / "dev.py").read_text("utf-8")
    ast.parse(source, feature_version=(3, 6))
    raised = source.replace("OLDEST = (3, 11)", "OLDEST = (9, 0)")
    assert raised != source
    done = subprocess.run([sys.executable, "-c", raised, "test"], capture_output=True, text=True)
    assert done.returncode == 2
    assert done.stdout == ""
    assert re.fullmatch(r"dev\.py needs Python 3\.11 or newer and this is Python 3\.\d+: .*\n", done.stderr)


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small checkout whose .venv/ was made to the end from run.txt by Python 'A'."""
    monkeypatch.setattr(dev, "ROOT", tmp_path)
    monkeypatch.setattr(dev, "STAMP", tmp_path / "stamp")
    monkeypatch.setattr(dev, "answer", lambda *command: "A")
    (tmp_path / "pyproject.toml").write_text("needs")
    (tmp_path / "run.txt").write_text("pins")
    (tmp_path / "stamp").write_text(dev.stamp(tmp_path / "run.txt", "A"))
    return tmp_path


def test_an_unchanged_environment_is_ready(checkout: Path) -> None:
    assert dev.is_ready(checkout / "run.txt")


@pytest.mark.parametrize("file", ["pyproject.toml", "run.txt"])
def test_changed_needs_or_pins_call_for_a_new_environment(checkout: Path, file: str) -> None:
    (checkout / file).write_text("other")
    assert not dev.is_ready(checkout / "run.txt")


@pytest.mark.parametrize("now", ["B", ""])
def test_another_python_or_one_that_no_longer_runs_calls_for_a_new_environment(
    checkout: Path, monkeypatch: pytest.MonkeyPatch, now: str
) -> None:
    monkeypatch.setattr(dev, "answer", lambda *command: now)
    assert not dev.is_ready(checkout / "run.txt")


def test_a_half_made_environment_is_not_ready(checkout: Path) -> None:
    (checkout / "stamp").unlink()
    assert not dev.is_ready(checkout / "run.txt")


def test_the_developers_environment_serves_for_running_too(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (checkout / "dev.txt").write_text("more pins")
    (checkout / "stamp").write_text(dev.stamp(checkout / "dev.txt", "A"))
    monkeypatch.setattr(dev, "DEV", checkout / "dev.txt")
    monkeypatch.setattr(dev, "uv", lambda: pytest.fail("set up again"))
    dev.set_up(checkout / "run.txt")


def test_pip_s_index_is_passed_on_unless_uv_has_one() -> None:
    # Source: the form and precedence of `pip config list` (pip's guide, 'Configuration').
    told = "global.index-url='https://a.invalid/simple'\nglobal.cert='/etc/ca.pem'\nglobal.timeout='60'\n"
    assert dev.index_settings(told, {}) == {
        "UV_DEFAULT_INDEX": "https://a.invalid/simple",
        "SSL_CERT_FILE": "/etc/ca.pem",
    }
    nearer = told + ":env:.index-url='https://b.invalid/simple?x=1'\n"
    assert dev.index_settings(nearer, {})["UV_DEFAULT_INDEX"] == "https://b.invalid/simple?x=1"
    assert dev.index_settings(told, {"UV_INDEX_URL": "c", "SSL_CERT_DIR": "d"}) == {}
    assert dev.index_settings("", {}) == {}


@pytest.mark.parametrize("words", [[], ["build"], ["setup", "more"]])
def test_an_unknown_command_is_refused(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert dev.main(words) == 2
    assert capsys.readouterr().err


def project_files() -> list[Path]:
    """Every file of the checkout that .gitignore does not name (so that a copy without git is read too)."""
    ignored = [".git", *(line.rstrip("/") for line in (ROOT / ".gitignore").read_text("utf-8").split())]

    def kept(path: Path) -> bool:
        return not any(fnmatch.fnmatch(path.name, pattern) for pattern in ignored)

    files, folders = [], [ROOT]
    while folders:
        inside = [path for path in folders.pop().iterdir() if kept(path)]
        folders += [path for path in inside if path.is_dir() and not path.is_symlink()]
        files += [path for path in inside if path.is_file()]
    return files


def test_no_file_names_a_registry_host_or_a_machine_s_own_paths() -> None:
    # The needles are put together here, so that this file does not hold them.
    hosts = [
        "pypi" + r"\.org",
        "python" + "hosted",
        "npmjs" + r"\.(org|com)",
        "crates" + r"\.io",
        "debian" + r"\.org",
    ]
    paths = ["work", "root", "opt/pypi", "Users"]
    needle = re.compile("|".join([*hosts, *(rf"(?<![\w.-])/{path}/" for path in paths)]).encode())
    files = project_files()
    assert ROOT / "dev.py" in files and ROOT / ".ci" / "run" in files
    named = {
        f"{path.relative_to(ROOT)}: {found.group().decode()}"
        for path in files
        for found in needle.finditer(path.read_bytes())
    }
    assert not named


@pytest.mark.parametrize("command", ["python3 dev.py demo", "python3 dev.py test"])
def test_the_readme_names_both_commands(command: str) -> None:
    assert command in (ROOT / "README.md").read_text("utf-8")


def test_a_named_browser_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ELLWAND_BROWSER", "/somewhere/browser")
    assert dev.browser() == "/somewhere/browser"


def test_a_found_browser_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("ELLWAND_BROWSER", raising=False)
    monkeypatch.setattr(dev.shutil, "which", lambda name: f"/bin/{name}" if name == "google-chrome" else None)
    assert dev.browser() == "/bin/google-chrome"


def test_without_a_browser_and_without_root_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("ELLWAND_BROWSER", raising=False)
    monkeypatch.setattr(dev.shutil, "which", lambda name: None)
    with pytest.raises(dev.Trouble, match="Found no browser"):
        dev.browser()


def test_root_on_debian_installs_chromium(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("ELLWAND_BROWSER", raising=False)
    monkeypatch.setattr(dev.os, "geteuid", lambda: 0, raising=False)
    ran: list[tuple[str, ...]] = []
    monkeypatch.setattr(dev, "must", lambda doing, *command: ran.append(command))

    def which(name: str) -> str | None:
        installed = any("chromium" in command for command in ran)
        return f"/usr/bin/{name}" if name == "apt-get" or (name == "chromium" and installed) else None

    monkeypatch.setattr(dev.shutil, "which", which)
    assert dev.browser() == "/usr/bin/chromium"
    assert [command[0] for command in ran] == ["apt-get", "apt-get"]
