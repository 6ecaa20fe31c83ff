"""Whose rules a garment was reckoned by: each with where it is from, or that it is from nowhere."""

from __future__ import annotations

from collections.abc import Iterator

from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.others import Apron, Breeches, Cloak, Coif, Hood

Row = tuple[str, str]
"""What is ruled, and whose rule it is."""


def rule_rows(garment: Garment) -> tuple[Row, ...]:
    """The rules that this garment used."""
    return tuple(_rows(garment))


def _rows(garment: Garment) -> Iterator[Row]:
    draft, choices = garment.draft, garment.choices
    yield (
        _("Measurements"),
        _("Terms as in ISO 8559-1:2017, known to us from what others print of it; its own text was not seen."),
    )
    if any(measure.source == "estimated" for measure in garment.wearer.measures.values()):
        if garment.wearer.is_child:
            text = _(
                "Children's means and spreads by age, CDC growth charts of 2000 for height; what no table holds is"
                " taken in proportion from adults."
            )
        else:
            text = _(
                "The joint normal distribution of a survey of 6,068 people (ANSUR II, 2012), given what was measured"
                " (textbook)."
            )
        yield _("Estimates"), text
    if choices.other is None:
        yield _("Ease and armhole"), _("Common practice, no source: usual ease for each layer of dress.")
        yield (
            _("Neck and head"),
            _("The neck's true length is solved so that the head passes (geometry); its shapes are common practice."),
        )
        if choices.sleeve.shape != "none":
            yield (
                _("Lifting the arm"),
                _(
                    "A plane model of two rigid links and cloth that does not stretch (our own, from the law of"
                    " cosines); the elbow's place from ANSUR II."
                ),
            )
        if draft.dimensions.gusset:
            yield _("Gussets"), _("The plane geometry of a right kite: folded, it fills the corner exactly.")
    yield from _others(garment)
    yield from _sewing(garment)
    yield _("Cloth to buy"), _("What shops cut to, shrinkage and ends to straighten: common practice, no source.")
    yield (
        _("How short the lay can be"),
        _(
            "Dual feasible functions: Fekete and Schepers, Mathematical Programming 91 (2001); Carlier, Clautiaux and"
            " Moukrim, Computers & Operations Research 34 (2007)."
        ),
    )
    yield from _adornment(garment)
    if garment.wearer.is_child:
        yield _("Cords on children"), _("EN 14682 and 16 CFR 1120; small parts: toy safety rules, from memory.")
    yield _("Care"), _("The groups of ISO 3758; the advice itself is common practice, no source.")


def _others(garment: Garment) -> Iterator[Row]:
    other = garment.choices.other
    if isinstance(other, Hood):
        yield (
            _("Hood"),
            _(
                "The Skjoldehamn hood (D. H. Løvlid 2009; S. Gjessing 1938), read as two sides in one length; gores on"
                " the shoulders: Nockert's type 3."
            ),
        )
    elif isinstance(other, Cloak):
        yield (
            _("Cloak"),
            _(
                "A sector's edges and area (plane geometry); strips as in the Bocksten cloak; three quarters of a"
                " circle after S. Thursfield; a rectangle of 4 ells by 2 as in Grágás."
            ),
        )
    elif isinstance(other, Coif | Apron | Breeches):
        yield _("Shape"), _("Its shape and its shares of the body: common practice, no source.")


def _sewing(garment: Garment) -> Iterator[Row]:
    if not garment.steps:
        return
    yield _("Stitches and seams"), _("Named as in ISO 4915 and ISO 4916, in our own words.")
    if garment.choices.sewing.by == "hand":
        yield (
            _("Hand stitches"),
            _(
                "Lengths and places as in finds from London and Greenland (Crowfoot, Pritchard and Staniland, Textiles"
                " and Clothing; Østergård, Woven into the Earth)."
            ),
        )
    yield (
        _("Time and thread"),
        _(
            "Stitches a minute as counted in a test of 1861 (quoted in Cooper, The Invention of the Sewing Machine);"
            " thread from the stitch's own path, with 10 to 15 % of waste as usual in the trade."
        ),
    )


def _adornment(garment: Garment) -> Iterator[Row]:
    adornment = garment.draft.adornment
    if garment.choices.division is not None or adornment.charges:
        yield (
            _("Heraldry"),
            _(
                "Lines and points of the field: Fox-Davies, A Complete Guide to Heraldry; Eve, Heraldry as Art; sizes"
                " of ordinaries: Cussans, The Grammar of Heraldry (1866)."
            ),
        )
    if adornment.yarns:
        yield _("Yarn for bands"), _("Warp is the finished length, its take-up and the loom's waste: common practice.")
