"""Size sets: as few sizes as any choice of them, each proved on everyone who is given it."""

from __future__ import annotations

import itertools
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from bodies import sample
from ellwand.company.reckoning import How, reckoned
from ellwand.company.sizes import FULLER, LONGER, SHORTER, fewest_that_serve, size_sets
from ellwand.pipeline import prove_sheet, read_wearer
from ellwand.prove import prove
from rosters import bundles_of
from workers import here


@given(
    st.integers(1, 6).flatmap(
        lambda n: st.tuples(
            st.lists(st.sets(st.integers(1, n)), min_size=n, max_size=n),
            st.lists(st.integers(1, 50), min_size=n, max_size=n),
        )
    )
)
def test_no_choice_of_sizes_is_smaller_or_takes_less(drawn: tuple[list[set[int]], list[int]]) -> None:
    """Against every subset."""
    others, costs = drawn
    numbers = list(range(1, len(costs) + 1))
    served = {n: sorted({n, *others[n - 1]}) for n in numbers}
    takes = dict(zip(numbers, costs, strict=True))
    worn, fewest = fewest_that_serve(numbers, served, takes)
    assert fewest and set(worn) == set(numbers)
    assert all(wearer in served[pattern] for wearer, pattern in worn.items())
    best = min(
        (len(chosen), sum(min(takes[p] for p in chosen if n in served[p]) for n in numbers))
        for size in range(1, len(numbers) + 1)
        for chosen in itertools.combinations(numbers, size)
        if all(any(n in served[p] for p in chosen) for n in numbers)
    )
    assert (len(set(worn.values())), sum(takes[pattern] for pattern in worn.values())) == best


def test_everyone_in_a_size_is_as_well_served_as_by_their_own(tmp_path: Path) -> None:
    """Real bodies: rows of ANSUR II."""
    rows = sample(14, seed=5)
    fields = ("sex", "height", "bust_girth", "hip_girth", "head_girth")
    lines = ["name,sex,height,chest,hips,head"]
    lines += [f"P{n}," + ",".join(str(row[field]) for field in fields) for n, row in enumerate(rows)]
    bundles = bundles_of(tmp_path, "\n".join(lines))
    sheets = {b.number: b.sheet for b in bundles if b.sheet}
    done = {b.number: reckoned(b.sheet, b.name, b.garment, "", How(0, papers=False))[0] for b in bundles if b.sheet}
    (found,) = size_sets(sheets, done, here, lambda: False)
    assert 1 <= len(found.sizes) < len(bundles)
    assert sorted(n for size in found.sizes for n in size.wearers) == sorted(sheets)
    assert found.line < found.line_alone
    for size in found.sizes:
        pattern = prove_sheet(sheets[size.pattern])
        for number in size.wearers:
            own = prove_sheet(sheets[number])
            wearer = read_wearer(sheets[number])[0]
            worse = {
                (each.code, each.subject) for each in prove(pattern.draft, wearer).findings if each.outcome != "sound"
            } - {(each.code, each.subject) for each in own.proof.findings if each.outcome != "sound"}
            assert not worse
            apart = pattern.draft.dimensions.length - own.draft.dimensions.length
            assert -SHORTER - 1e-6 <= apart <= LONGER + 1e-6
            assert pattern.draft.dimensions.body_girth - own.draft.dimensions.body_girth <= FULLER + 1e-6
