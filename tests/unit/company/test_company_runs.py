"""The whole company: the same whoever does it and however often it is broken off; what is done is not done again."""

from __future__ import annotations

import io
import os
import signal
import zipfile
from collections.abc import Callable
from pathlib import Path

import pdfplumber
import pytest
from distributed import LocalCluster

from ellwand.cli.packing import write_company
from ellwand.cli.writing import write_files
from ellwand.company.hands import cluster, processes
from ellwand.company.reckoning import How
from ellwand.company.roster import Bundle
from ellwand.company.running import run
from ellwand.company.shelf import Shelf
from ellwand.depict.company import everyone, looks
from ellwand.model.company import Company
from rosters import bundles_of
from running import run as command
from workers import here, nobody

ROSTER = (
    "Name,Sex,Height,Chest,Garment,Colour\n"
    "Ann Weir,f,164,96,,red\nBo <b>,m,180,104,hood,red\nCi Low,f,158,900,,blue\n王小明,m,171,99,,blue\n"
    "Do,f,160,93,,blue\n"
)
QUICK = How(0, papers=False)


@pytest.fixture(scope="module")
def bundles(tmp_path_factory: pytest.TempPathFactory) -> tuple[Bundle, ...]:
    return bundles_of(tmp_path_factory.mktemp("roster"), ROSTER)


def made(bundles: tuple[Bundle, ...], folder: Path, how: How = QUICK, **more: object) -> Company:
    company = run(bundles, how, more.pop("hands", here), Shelf(folder, write_files), **more)  # type: ignore[arg-type]
    assert company is not None
    return company


def everything(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


def test_the_workers_number_does_not_matter_to_the_last_byte(bundles: tuple[Bundle, ...], tmp_path: Path) -> None:
    how = How(0)
    alone = made(bundles, tmp_path / "one", how)
    with processes(2) as hands:
        both = made(bundles, tmp_path / "two", how, hands=hands)
    assert alone == both
    assert everything(tmp_path / "one") == everything(tmp_path / "two")


def test_a_cluster_that_loses_a_worker_makes_the_same_company(bundles: tuple[Bundle, ...], tmp_path: Path) -> None:
    """A real Dask scheduler with two worker processes, one of them killed as soon as the first garment is done."""
    alone = made(bundles, tmp_path / "one")
    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as dask:
        killed: list[int] = []

        def kill(text: str) -> None:
            if not killed:
                killed.append(next(iter(dask.workers.values())).pid)
                os.kill(killed[0], signal.SIGKILL)

        with cluster(dask.scheduler_address) as hands:
            assert made(bundles, tmp_path / "two", hands=hands, tell=kill) == alone
    assert killed
    assert everything(tmp_path / "one") == everything(tmp_path / "two")


def test_broken_off_and_begun_again_it_goes_on_from_there(bundles: tuple[Bundle, ...], tmp_path: Path) -> None:
    whole = made(bundles, tmp_path / "whole")
    told: list[str] = []
    company, rounds = None, 0
    while company is None:
        rounds += 1
        company = run(
            bundles,
            QUICK,
            here,
            Shelf(tmp_path / "parts", write_files),
            tell=told.append,
            stop=_after(told, len(told) + rounds),
        )
        assert rounds < 30
    assert rounds > 1 and company == whole
    assert everything(tmp_path / "parts") == everything(tmp_path / "whole")
    assert made(bundles, tmp_path / "parts", hands=_only_sizes).done == whole.done


def _after(told: list[str], count: int) -> Callable[[], bool]:
    return lambda: len(told) > count


def _only_sizes(do, asked, stop):  # type: ignore[no-untyped-def]
    """Hands that may look for sizes but reckon nothing."""
    assert do.__module__.endswith("sizes") or not asked, f"{len(asked)} are done again"
    return here(do, asked, stop)


def test_a_change_of_one_is_done_again_alone(bundles: tuple[Bundle, ...], tmp_path: Path) -> None:
    made(bundles, tmp_path / "out")
    asked: list[object] = []

    def counted(do, jobs, stop):  # type: ignore[no-untyped-def]
        if not do.__module__.endswith("sizes"):
            asked.extend(jobs)
        return here(do, jobs, stop)

    again = bundles_of(tmp_path, ROSTER.replace("164,96", "165,96"))
    made(again, tmp_path / "out", hands=counted)
    assert len(asked) == 2, "her garment, and the lay it is in"


def test_papers_that_are_gone_are_written_again(tmp_path: Path) -> None:
    one = bundles_of(tmp_path, "Name,Height,Chest\nAnn,164,96\n")
    company = made(one, tmp_path / "out", How(0))
    card = tmp_path / "out" / company.places[1] / "card.pdf"
    before = card.read_bytes()
    card.unlink()
    made(one, tmp_path / "out", How(0))
    assert card.read_bytes() == before
    with pytest.raises(AssertionError, match="done again"):
        card.unlink()
        made(one, tmp_path / "out", How(0), hands=nobody)


def test_who_cannot_be_cut_for_is_named_and_the_rest_goes_on(bundles: tuple[Bundle, ...], tmp_path: Path) -> None:
    company = made(bundles, tmp_path)
    assert [bool(done.trouble) for _n, done in sorted(company.done.items())] == [False, False, True, False, False]
    first = looks(company).rows[0]
    assert first[:3] == ("3", "Ci Low", "tunic") and "cannot be cut" in first[3]
    assert len(everyone(company).rows) == 5


def test_the_pack_and_the_papers_name_everyone(bundles: tuple[Bundle, ...], tmp_path: Path) -> None:
    company = made(bundles, tmp_path)
    said = write_company(company, tmp_path)
    assert "5 garments." in said and "pack.zip" in said
    with zipfile.ZipFile(tmp_path / "pack.zip") as pack:
        assert pack.testzip() is None
        names = set(pack.namelist())
        assert {"report.pdf", "order.csv", "labels.pdf", "looks.csv", "everyone.csv"} <= names
        for file in ("report.pdf", "labels.pdf"):
            with pdfplumber.open(io.BytesIO(pack.read(file))) as pdf:
                text = "\n".join(page.extract_text() for page in pdf.pages)
            assert "Ann Weir" in text and "Bo <b>" in text and "WangXiaoMing" in text
    assert all(not name.startswith(("/", "..")) for name in names)
    first = (tmp_path / "pack.zip").read_bytes()
    write_company(company, tmp_path)
    assert (tmp_path / "pack.zip").read_bytes() == first


def test_the_command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    bundles_of(tmp_path, "Name;Height;Chest;Head;Colour;Shoe size\nAnn;164;96;56;red;39\nann;158;90;55;red;40\n")
    given = [str(tmp_path / name) for name in ("roster.csv", "tunic.toml")]
    out = tmp_path / "out"
    assert command(monkeypatch, "company", *given, "--out", str(out), "--workers", "1", "--effort", "0") == 0
    told = capsys.readouterr()
    assert "2 garments. All is sound." in told.out and "wool cloth, red, 150" in told.out
    assert "Shoe size" in told.err and "more than once" in told.err and "2 of 2" in told.err
    folders = sorted(file.name for file in (out / "people").iterdir())
    assert folders == ["ann-tunic", "ann-tunic-2"]
    for folder in folders:
        assert {"card.pdf", "chalk.csv", "garment.json"} <= {file.name for file in (out / "people" / folder).iterdir()}
    assert command(monkeypatch, "company", *given, "--workers", "1", "--cluster", "tcp://127.0.0.1:1") == 2
    assert command(monkeypatch, "company", str(tmp_path / "none.csv"), given[1]) == 2
    assert "none.csv" in capsys.readouterr().err
