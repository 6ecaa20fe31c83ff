"""The command line, run inside the test."""

from __future__ import annotations

import sys

import pytest

from ellwand.cli import main


def run(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int:
    """Exit code of ``ellwand ARGUMENTS``."""
    monkeypatch.setattr(sys, "argv", ["ellwand", *arguments])
    with pytest.raises(SystemExit) as stop:
        main()
    assert isinstance(stop.value.code, int)
    return stop.value.code
