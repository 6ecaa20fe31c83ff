"""What the period evidence is called where it is shown: its standings, regions, sources and remarks."""

from __future__ import annotations

from typing import Final

from ellwand.language import N_, _

EVIDENCE_NAMES: Final = frozenset(
    {
        # standings
        N_("usual"),
        N_("known"),
        N_("rare or debated"),
        # regions
        N_("Europe"),
        N_("north-west Europe"),
        N_("England and the near Continent"),
        N_("England"),
        N_("Scotland"),
        N_("France"),
        N_("Germany"),
        N_("the Low Countries"),
        N_("Scandinavia"),
        N_("Denmark"),
        N_("Norway"),
        N_("Sweden"),
        N_("Greenland"),
        # sources
        N_("pictures and finds of buttons (Egan and Pritchard 1991)"),
        N_("French column figures (costume handbooks)"),
        N_("the Bocksten kyrtle (Nockert 1997)"),
        N_("the Viborg shirt and the Bocksten kyrtle"),
        N_("the Bocksten hood and cloak (Nockert 1997)"),
        N_("small brooches at the neck (re-enactors' survey)"),
        N_("a survey of close-fitting dress (Forest 2008)"),
        N_("English effigies of 1348 to 1375"),
        N_("pictures of buttoned fronts (Egan and Pritchard 1991)"),
        N_("the Herjolfsnes gowns (Norlund 1924)"),
        N_("Herjolfsnes 39 (Norlund 1924)"),
        N_("Herjolfsnes 42 and 58 (Norlund 1924)"),
        N_("Herjolfsnes 63 and 64 (Norlund 1924)"),
        N_("the Guddal shirts"),
        N_("an argument from pictures (Harris)"),
        N_("the Hedeby fragments (Hägg 1984)"),
        N_("the Greenland hoods (Nockert's types 2 and 3)"),
        N_("finds of hooks and eyes (Portable Antiquities Scheme)"),
        N_("costume handbooks on the houppelande"),
        N_("the Kragelund tunic (Hald 1980)"),
        N_("a survey of parti-coloured dress (Lewandowski 2011)"),
        N_("an encyclopaedia on parti-colour (Meyers 1908)"),
        N_("the Moselund tunic (Hald 1980)"),
        N_("the Rogart shirt, of uncertain date (Henshall)"),
        N_("the Moselund, Kragelund and Bocksten tunics"),
        N_("the Skjoldehamn find (Løvlid 2009)"),
        N_("the Söderköping kirtle, dated by one compiler"),
        N_("the star mantle of Henry II"),
        N_("Thursfield's manual (2001)"),
        N_("the Uppsala gown (Geijer 1994)"),
        N_("the Viborg shirt (Fentz 1987)"),
        # remarks
        N_("gowns with gores only below the waist"),
        N_("a short one"),
        N_("sewn shut on the arm each day"),
        N_("the sleeveless surcote"),
        N_("a triangle on no. 38"),
        N_("low and wide, women's"),
        N_("on shirts"),
        N_("two pairs of eyelets"),
        N_("the pictures are read both ways"),
        N_("most of all in the 13th and 14th centuries"),
        N_("hose of two colours already in the 10th century"),
        N_("blue and red"),
        N_("a surcote in two halves"),
        N_("a tailoring manual knows coats halved upright only"),
        N_("a tailoring manual knows coats halved upright, not quartered"),
        N_("parted after the lord's arms; a tailoring manual knows coats halved upright only"),
        N_("a stump, 15 cm long"),
    }
)
"""English inside, as the evidence has them."""


def evidence_named(text: str) -> str:
    """One of them, in the language spoken; what is none of them stays as it is."""
    return _(text) if text in EVIDENCE_NAMES else text
