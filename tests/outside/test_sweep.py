"""Garments from the whole choice space on real bodies: each assembles, or is refused in one sentence with a mend.

The second opinion is tests/independent.py, which reads garment.json alone.  Bodies: ANSUR II 2012 (tests/bodies.py)
and children of the heights of the CDC growth charts 2000 (tests/data/growth_lms.csv).
"""

from __future__ import annotations

import json
from collections import Counter

import pytest

from ellwand import garment_json
from ellwand.errors import CannotDraft
from independent import faults
from sweep import LEFT_OUT, SEVERAL, Tables, garments, made, options, unknown, words_of

SEED = 4
CHUNKS, EACH = 20, 50
MOST_REFUSED = 0.4
"""Of a chunk; about one in five is refused on the whole."""


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_assembles_or_is_refused(chunk: int) -> None:
    refused = 0
    for i, (tables, person) in enumerate(garments(SEED, EACH, first=chunk * EACH)):
        told = f"garment_at({SEED}, {chunk * EACH + i}): {json.dumps([tables, person])}"
        try:
            garment = made(tables, person)
        except CannotDraft as sentence:
            refused += 1
            assert sentence.where and sentence.problem and sentence.mend, f"{sentence} {told}"
            assert "\n" not in str(sentence) and str(sentence).endswith("."), told
            continue
        assert faults(json.loads(garment_json(garment))) == [], told
        assert not [f for f in garment.proof.findings if _is_assembly(f.code) and f.outcome != "sound"], told
    assert refused <= MOST_REFUSED * EACH


def _is_assembly(code: str) -> bool:
    """Findings that no choice of the maker's may bring about."""
    return code.startswith(("seam-", "edge-", "outline")) or code in ("surface", "one-piece", "two-sided", "openings")


def test_every_option_can_be_drawn() -> None:
    assert unknown() == [], "give each of these a line in tests/sweep.py"


def test_every_word_of_every_option_is_drawn() -> None:
    """Within four thousand, at the latest."""
    drawn: Counter[tuple[str, object]] = Counter()
    lists: Counter[tuple[str, int]] = Counter()
    for tables, _ in garments(SEED, 4 * CHUNKS * EACH):
        _count(tables, "", drawn, lists)
    missing = [(path, word) for path, _ in options() for word in words_of(path) if not drawn[path, word]]
    assert [pair for pair in missing if not _is_left_out(pair[0])] == []
    assert all(lists[path, most] for path, (_, most) in SEVERAL.items())


def _is_left_out(path: str) -> bool:
    return any(path.startswith(out) for out in LEFT_OUT)


def _count(table: Tables, path: str, drawn: Counter[tuple[str, object]], lists: Counter[tuple[str, int]]) -> None:
    for key, value in table.items():
        here = f"{path}.{key}".lstrip(".")
        if isinstance(value, dict):
            _count(value, here, drawn, lists)
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            lists[here, len(value)] += 1
            for each in value:
                _count(each, here, drawn, lists)
        elif isinstance(value, (str, bool)):
            drawn[here, value] += 1
