"""The sheet's reference is generated, whole and up to date."""

from pathlib import Path

from ellwand.choose.reference import reference


def test_the_page_is_the_generated_one() -> None:
    page = Path(__file__).parents[3] / "docs" / "sheet.md"
    assert page.read_text(encoding="utf-8") == reference()


def test_every_option_has_a_meaning() -> None:
    for line in reference().splitlines():
        if line.startswith("| `"):
            assert line.split("|")[2].strip(), line
