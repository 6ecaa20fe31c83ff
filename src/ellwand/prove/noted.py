"""What the draft settled on its own becomes a finding to look at."""

from __future__ import annotations

from ellwand.model.draft import Draft
from ellwand.model.finding import Finding

JUDGED_ELSEWHERE = frozenset({"head-estimated"})
"""Notes whose matter has a finding of its own."""

TOLD = frozenset({"pieced", "bloused"})
"""Notes that only tell what was done as asked."""


def noted(draft: Draft) -> tuple[Finding, ...]:
    """One finding for every note of the draft."""
    return tuple(
        Finding(note.code, note.subject, "sound" if note.code in TOLD else "look again", values=note.values)
        for note in draft.notes
        if note.code not in JUDGED_ELSEWHERE
    )
