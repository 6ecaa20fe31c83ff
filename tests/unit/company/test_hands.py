"""Whoever does it, the answers are the same: processes that are killed, and a real Dask cluster that loses a worker."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from distributed import LocalCluster

from ellwand.company.hands import cluster, count_of, processes
from ellwand.errors import BadInput, InternalFault
from workers import here, squared, squared_by_a_survivor


def never() -> bool:
    return False


def dies(number: int) -> int:
    os.kill(os.getpid(), signal.SIGKILL)
    return number


def test_two_processes_answer_as_one_does() -> None:
    with processes(2) as hands:
        assert dict(hands(squared, range(40), never)) == dict(here(squared, range(40), never))
        assert list(hands(squared, [], never)) == []


def test_a_process_that_is_killed_is_replaced_and_its_job_done_again(tmp_path: Path) -> None:
    with processes(2) as hands:
        answers = dict(hands(squared_by_a_survivor, [(n, str(tmp_path)) for n in range(12)], never))
    assert (tmp_path / "grave").exists()
    assert answers == {n: n * n for n in range(12)}


def test_what_kills_every_process_is_given_up() -> None:
    with processes(1) as hands, pytest.raises(InternalFault):
        list(hands(dies, [1], never))


def test_a_stop_ends_it_with_what_is_done() -> None:
    done: list[int] = []
    with processes(1) as hands:
        for number, _answer in hands(squared, range(10_000), lambda: len(done) >= 3):
            done.append(number)
    assert 3 <= len(done) < 20


def test_without_anyone_to_do_it_nothing_is_begun() -> None:
    assert count_of(None) >= 1 and count_of(3) == 3
    with pytest.raises(BadInput, match="1 or more"):
        count_of(0)


@pytest.fixture(scope="module")
def dask() -> Iterator[LocalCluster]:
    """A real scheduler with two workers, each a process of its own."""
    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as made:
        yield made


def test_a_cluster_answers_as_one_process_does(dask: LocalCluster) -> None:
    with cluster(dask.scheduler_address) as hands:
        assert dict(hands(squared, range(60), never)) == dict(here(squared, range(60), never))


def test_a_cluster_that_loses_a_worker_gives_the_same(dask: LocalCluster, tmp_path: Path) -> None:
    with cluster(dask.scheduler_address) as hands:
        answers = dict(hands(squared_by_a_survivor, [(n, str(tmp_path)) for n in range(24)], never))
    assert (tmp_path / "grave").exists()
    assert answers == {n: n * n for n in range(24)}


def test_where_no_cluster_is_one_sentence_says_so() -> None:
    start = time.monotonic()
    with pytest.raises(BadInput, match="no cluster answers"), cluster("tcp://127.0.0.1:9"):
        pass
    assert time.monotonic() - start < 60
    with pytest.raises(BadInput, match="no cluster answers"), cluster("nonsense"):
        pass
