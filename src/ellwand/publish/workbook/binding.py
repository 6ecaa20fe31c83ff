"""A booklet: the book's pages two to a side, so that printed sheets lie in each other, stapled in the fold."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from ellwand.language import language

if TYPE_CHECKING:
    import pikepdf


A4: Final = 841.89
ROUNDED: Final = 4.0
"""How wide A4 is lying (points); twice A5 is narrower by a millimetre, which stays free on both sides."""


def booklet_pdf(book: bytes) -> bytes:
    """The book's pages in pairs on sheets twice as wide, front and back in turn; the same bytes each time.

    To be printed on both sides, turned over the short edge, folded once and stapled.  Pages that are lacking to a
    multiple of four are empty, at the end.  It is for paper alone: who reads by ear takes the book itself.
    """
    import pikepdf

    with pikepdf.open(io.BytesIO(book)) as source, pikepdf.new() as made:
        wide, high = (float(source.pages[0].mediabox[i]) for i in (2, 3))
        sheet = A4 if abs(2 * wide - A4) < ROUNDED else 2 * wide
        forms = [made.copy_foreign(page.as_form_xobject()) for page in source.pages]
        for left, right in sides(len(forms)):
            page = made.add_blank_page(page_size=(sheet, high))
            drawn = []
            for n, x in ((left, sheet / 2 - wide), (right, sheet / 2)):
                if n <= len(forms):
                    name = page.add_resource(forms[n - 1], pikepdf.Name.XObject, pikepdf.Name(f"/Page{n}"))
                    drawn.append(f"q 1 0 0 1 {x:.4f} 0 cm {name} Do Q")
            page.contents_add("\n".join(drawn).encode())
        _told(made, source)
        out = io.BytesIO()
        made.save(out, deterministic_id=True)
    return out.getvalue()


def sides(count: int) -> Iterator[tuple[int, int]]:
    """(left, right) page of each side that is printed, of a book with so many pages; numbers beyond it are empty.

    >>> list(sides(7))
    [(8, 1), (2, 7), (6, 3), (4, 5)]
    """
    whole = -(-count // 4) * 4
    for low in range(1, whole // 2, 2):
        yield whole + 1 - low, low
        yield low + 1, whole - low


def _told(made: pikepdf.Pdf, source: pikepdf.Pdf) -> None:
    """Title and language are those of the book."""
    import pikepdf

    made.Root.Lang = pikepdf.String(language())
    made.Root.ViewerPreferences = pikepdf.Dictionary(DisplayDocTitle=True, Duplex=pikepdf.Name.DuplexFlipShortEdge)
    with source.open_metadata() as book, made.open_metadata(set_pikepdf_as_editor=False, update_docinfo=True) as told:
        told["dc:title"] = book.get("dc:title", "")
