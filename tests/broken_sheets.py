"""Sheets that are refused, each for another reason, as people write them."""

from __future__ import annotations

from typing import Final

JOAN: Final = '[wearer]\nname = "Joan"\nsex = "female"\nheight = 164\nbust_girth = 96\n'
CLOTH: Final = "[cloth.main]\nwidth = 150\n"


def _wearer(lines: str) -> str:
    return f"[wearer]\n{lines}\n{CLOTH}"


def _garment(lines: str) -> str:
    return f"{JOAN}[garment]\n{lines}\n{CLOTH}"


def _cloth(lines: str) -> str:
    return f"{JOAN}{lines}\n"


def _beside(lines: str) -> str:
    return f"{JOAN}{CLOTH}{lines}\n"


_SIDE: Final = '[[garment.gores]]\nplace = "side"\nstart = "hip"\nbase = 40\n'

BROKEN: Final[tuple[str, ...]] = (
    # no sheet, or no whole one
    "",
    "x = ",
    "wearer = 3",
    f"[wearre]\nheight = 164\n{CLOTH}",
    JOAN,
    f"language = 3\n{JOAN}{CLOTH}",
    # the wearer
    _wearer("height = 164"),
    _wearer("bust_girth = 96"),
    _wearer("height = 16.4\nbust_girth = 96"),
    _wearer("height = 64.5\nbust_girth = 96"),
    _wearer("height = 1.64\nbust_girth = 96"),
    _wearer("height = 1640\nbust_girth = 96"),
    _wearer('unit = "in"\nheight = 164\nbust_girth = 96'),
    _wearer('height = "abc"\nbust_girth = 96'),
    _wearer('height = "5 ells"\nbust_girth = 96'),
    _wearer('height = "-3"\nbust_girth = 96'),
    _wearer('height = ""\nbust_girth = 96'),
    _wearer("height = 0\nbust_girth = 96"),
    _wearer("height = inf\nbust_girth = 96"),
    _wearer('height = "1/0"\nbust_girth = 96'),
    _wearer("hight = 164\nbust_girth = 96"),
    _wearer("height = 164\nbust_girth = 96\nchest_girth = 96"),
    _wearer('height = 164\nbust_girth = 96\nsex = "f"'),
    _wearer('height = 164\nbust_girth = 96\nunit = "ell"'),
    _wearer("height = 164\nbust_girth = 96\nage = 200"),
    _wearer("height = 90\nage = 1"),
    _wearer("height = 164\nbust_girth = 96\nname = 3"),
    _wearer('height = 164\nbust_girth = 96\nconfirmed = ["nose"]'),
    _wearer("height = 164\nbust_girth = 96\nconfirmed = 4"),
    _wearer("height = 164\nbust_girth = 96\nknee_to_floor = 84\nwaist_to_floor = 83"),
    _wearer('list = "none.csv"\nname = "Joan"'),
    _wearer("list = 3"),
    # one value of the garment
    _garment('style = "tunick"'),
    _garment("style = 3"),
    _garment('lenght = "knee"'),
    _garment('length = "kneee"'),
    _garment("length = 3"),
    _garment("length = [40]"),
    _garment("length = [60, 40]"),
    _garment('date = "x"'),
    _garment("date = 12"),
    _garment("over = 3"),
    _garment('over = ["none.toml"]'),
    _garment("over = [{thickness_mm = 400}]"),
    _garment("[garment.hood]"),
    _garment('style = "hood"\n[garment.sleeve]\nshape = "none"'),
    _garment('style = "hood"\n[garment.cloak]'),
    _garment("body = 3"),
    _garment("gores = 3"),
    _garment('[[garment.gores]]\nstart = "hip"\nbase = 40'),
    # choices that do not go together
    _garment("length = 30"),
    _garment("train = 20"),
    _garment("[garment.body]\nshoulder_slope = 4"),
    _garment("[garment.body]\nflare = 10"),
    _garment(f'[garment.body]\nside_panel = "whole"\ncut = "shoulder panels"\n{_SIDE}'),
    _garment('[[garment.gores]]\nplace = "side"\nstart = "hip"\nbase = 300'),
    _garment('[[garment.gores]]\nplace = "side"\nstart = 140\nbase = 40'),
    _garment(f'length = "hip"\n{_SIDE}'),
    _garment('[[garment.gores]]\nplace = "side-front"\nstart = "hip"\nbase = 40'),
    _garment('[[garment.gores]]\nplace = "centre-front"\nstart = "hip"\nbase = 40\ntop = 5'),
    _garment('[[garment.splits]]\nplace = "side"\nheight = "hip"\n' * 2),
    _garment('length = "hip"\n[[garment.splits]]\nplace = "side"\nheight = "knee"'),
    _garment('[[garment.splits]]\nplace = "side"\nheight = 130'),
    _garment('[[garment.closures]]\nat = "cuffs"\nby = "ties"\n' * 2),
    _garment('[garment.neck]\nshape = "round"\n[[garment.closures]]\nat = "neck slit"\nby = "ties"'),
    _garment('[garment.sleeve]\nshape = "none"\n[[garment.closures]]\nat = "cuffs"\nby = "ties"'),
    _garment('[[garment.closures]]\nat = "side"\nby = "ties"\nto = "hip"'),
    _garment('[[garment.closures]]\nat = "neck slit"\nby = "lacing"\nlap = "overlap"'),
    _garment('[[garment.closures]]\nat = "neck slit"\nby = "buttons"\nsize = 3\nspacing = 2'),
    _garment('[garment.neck]\nshape = "square"\nfront_drop = 10\nback_drop = 4'),
    _garment('[garment.neck]\nshape = "round"\nfront_drop = 60'),
    _garment('[garment.neck]\nshape = "round"\nback = "pointed"'),
    _garment('[garment.neck]\nshape = "rectangle"\ncollar = 4'),
    _garment('[garment.neck]\nfacing = "strip"\nfacing_width = 2'),
    _garment('[garment.sleeve]\nshape = "tapered"\ncuff = 10'),
    _garment('[garment.sleeve]\nshape = "fitted forearm"\nlength = "cap"'),
    _garment("[garment.sleeve]\nlength = 3"),
    _garment('[garment.sleeve]\nhead = "shaped"'),
    _garment("[garment.sleeve]\nelbow_gore = 60"),
    _garment('[garment.sleeve]\nlength = "cap"\ngusset = 30'),
    _garment("[garment.growth]\nmonths = 12"),
    _garment('style = "hood"\n[garment.hood]\ngores = "squares"\ngore = 60'),
    _garment('style = "apron"\n[garment.apron]\nwidth = 30\ntop = "gathered"'),
    # cloth and sewing
    _cloth("[cloth.main]\nwidht = 150"),
    _cloth("[cloth.main]\nlength = 300"),
    _cloth('[cloth.main]\nwidth = 150\ncut = "torn"\ngap = 1'),
    _cloth('[cloth.main]\nwidth = 150\nnap = "yes"'),
    _cloth("[cloth.main]\nwidth = 150\nshrink_warp = 3"),
    _cloth("[cloth]"),
    _beside("[cloth.second]\nwidth = 90"),
    _beside('[cloth.a]\nwidth = 90\npieces = ["gores"]\n[cloth.b]\nwidth = 90\npieces = ["gores"]'),
    _beside('[cloth.a]\nwidth = 90\npieces = "gores"'),
    _beside("[[cloth.remnants]]\nwidth = 50"),
    _beside('[[cloth.remnants]]\nwidth = 50\nlength = 60\ncloth = "silk"'),
    _beside("[[cloth.remnants]]\noutline = [[0, 0], [1, 1]]"),
    _beside("[[cloth.remnants]]\noutline = [[0, 0], [50, 50], [50, 0], [0, 50]]"),
    _beside('[sewing]\nallowance = "wide"'),
    _beside('[sewing]\nfinish = "glued"'),
    # what adorns it
    _garment('[garment.division]\nby = "per pale"\ntinctures = ["gules"]'),
    _garment('[garment.division]\nby = "per pale"\ntinctures = ["gules", "or"]\ncount = 3'),
    _garment('[garment.division]\nby = "paly"\ntinctures = ["gules", "or"]\ncount = 3'),
    _garment('[garment.division]\nby = "per fess"\ntinctures = ["gules", "or"]\nat = 240'),
    _garment('[[garment.charges]]\ntincture = "or"'),
    _garment('[[garment.charges]]\nmotif = "lion"\ntincture = "or"'),
    _garment('[[garment.charges]]\nmotif = "roundel"\ntincture = "or"\nsize = 0.9\nnumber = 3'),
    _garment('[[garment.repeats]]\nmotif = "rundel"\nalong = "hem"\nsize = [4, 5]'),
    _garment('[[garment.repeats]]\nmotif = "roundel"\nalong = "hem"\nsize = [4, 5]\nheight = 10'),
    _garment('[[garment.repeats]]\nmotif = "roundel"\nalong = "skirt ring"\nsize = [4, 5]\nheight = 130'),
    _garment('[[garment.bands]]\nat = "hem"\nwidth = 4\nmake = "bought"\n' * 2),
    _garment('[[garment.bands]]\nat = "splits"\nwidth = 3\nmake = "bought"'),
    _garment(
        '[[garment.gores]]\nplace = "side"\nstart = "hip"\nbase = 40\nhem = "straight"\n'
        '[[garment.bands]]\nat = "hem"\nwidth = 3\nmake = "bought"'
    ),
)
"""Texts of sheets; each names what is wrong in another place or another way."""
