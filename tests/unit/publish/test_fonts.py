"""Every PDF that is written embeds its fonts, and uses none but our sans and the serif of our books (pikepdf)."""

from __future__ import annotations

from pathlib import Path

import pytest

from ellwand.cli.writing import write_garment
from ellwand.pipeline import make
from ellwand.publish import measuring_form_pdf
from ellwand.publish.pattern import pattern_pdf, projector_pdf
from printed import fonts
from sheets import JOAN, sheet

OURS = ("SourceSansPro-", "LibertinusSerif-")
CHOICES = {"style": "tunic", "repeats": [{"motif": "fleuron", "along": "hem", "by": "stencil"}]}


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("written")
    garment = make(sheet(CHOICES, wearer={**JOAN, "name": "Jóhanna 王 Saltmere"}), seconds=0)
    write_garment(garment, folder)
    (folder / "form.pdf").write_bytes(measuring_form_pdf(["Ярослава"], "cm"))
    (folder / "pattern-a0.pdf").write_bytes(pattern_pdf(garment, "A0"))
    (folder / "projector.pdf").write_bytes(projector_pdf(garment))
    return folder


def test_every_pdf_embeds_our_fonts_and_no_other(written: Path) -> None:
    files = sorted(written.glob("*.pdf"))
    assert {"card.pdf", "sewing.pdf", "pattern.pdf", "pattern-long.pdf", "stencils.pdf"} <= {
        file.name for file in files
    }
    for file in files:
        found = fonts(file.read_bytes())
        assert found, file.name
        assert all(found.values()), (file.name, found)
        assert all(name.startswith(OURS) for name in found), (file.name, found)
