"""The controls of a form: what can be chosen of a garment as it is now, group by group."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from ellwand.choose.fields import Takes
from ellwand.choose.form.applies import APPLIES, chosen_in
from ellwand.choose.form.described import Described, Option, described
from ellwand.choose.form.filled import GATES, MOST, Pairs, pairs_of, tables_of
from ellwand.choose.form.labels import HEADINGS, label_of, word_said
from ellwand.choose.options.others import COMMON
from ellwand.choose.styles import STYLES
from ellwand.language import _
from ellwand.model.names import named
from ellwand.model.others import KINDS
from ellwand.units import Unit, decimal, format_length


@dataclass(frozen=True, slots=True)
class Control:
    """One thing to choose: ``path`` is its name in the form, ``value`` what is chosen, '' where nothing is.

    ``words``: each word that may be chosen with how it is said; ``usual``: what an empty one stands for; ``most``: of a
    range, None where none may be given.  ``rare``: seldom needed.
    """

    path: str
    label: str
    help: str
    takes: Takes
    value: str
    words: tuple[tuple[str, str], ...]
    usual: str
    most: str | None = None
    rare: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """Some controls under a heading: one of a list (``path`` is its own) or a table within another."""

    path: str
    heading: str
    controls: tuple[Control, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """What is chosen in one place: ``adds`` are the lists that another entry can be added to, with their headings."""

    name: str
    heading: str
    controls: tuple[Control, ...]
    entries: tuple[Entry, ...] = ()
    adds: tuple[tuple[str, str], ...] = ()


RARE: Final = frozenset(
    {
        *(f"garment.{key}" for key in ("take", "date", "region")),
        *(f"garment.body.{key}" for key in ("pieced", "back_longer", "shoulder_slope", "side_panel")),
        *(f"garment.neck.{key}" for key in ("ease", "front_drop", "back_drop", "facing_width")),
        *(f"garment.sleeve.{key}" for key in ("gusset_shape", "pieces", "seam", "head_ease", "elbow_gore")),
        *(f"garment.gores.{key}" for key in ("top", "hem")),
        *(f"garment.closures.{key}" for key in ("lap", "overlap", "size", "buttons", "to")),
        *(f"garment.bands.{key}" for key in ("corners", "turned", "ends", "wraps", "grams", "take_up", "loom_waste")),
        *(f"garment.repeats.{key}" for key in ("inset", "clear_of_seams", "mirrored", "corners")),
        *(f"sewing.{key}" for key in ("sleeves", "gussets", "chalk", "stitch", "machine", "neaten")),
        *(f"sewing.{key}" for key in ("overedge_constant", "large_type")),
        *(f"cloth.main.{key}" for key in ("unit", "shrink_warp", "shrink_weft", "wash", "thickness_mm", "sold_by")),
        *(f"cloth.main.{key}" for key in ("straighten", "spare", "gap", "selvedge_edges", "table", "cut", "tears")),
        *(f"cloth.main.{key}" for key in ("pieces", "tincture", "crosswise", "grams", "price")),
        *(f"cloth.main.bends_{way}" for way in ("warp", "weft", "bias")),
        *(f"cloth.main.gives_{way}" for way in ("warp", "weft")),
    }
)
"""What most makers leave as it is."""
MAIN: Final = "main"
LEFT_OVER: Final = "remnants"
HEM: Final = ("length", "blouse", "belt", "train")
SKETCHED: Final = ("division", "charges")
PLACES: Final[Mapping[str, tuple[str, ...]]] = {
    "neck": ("neck",),
    "sleeve": ("sleeve",),
    "body": ("body",),
    "gores": ("gores",),
    "splits": ("splits",),
    "closures": ("closures",),
    "bands": ("bands",),
    "repeats": ("repeats",),
    "division": SKETCHED,
}
"""Which tables of [garment] are chosen where."""


def groups(pairs: Pairs, unit: Unit = "cm") -> tuple[Group, ...]:
    """All that can be chosen, for a garment of which ``pairs`` are filled in."""
    tables = tables_of(pairs)
    garment = tables.get("garment", {})
    style = garment.get("style", "tunic") if garment.get("style", "tunic") in STYLES else "tunic"
    form = _Form(dict(pairs_of(_with_its_style(tables, style), unit)), garment, style, unit)
    of_garment = described("garment")
    own = {table.path.rpartition(".")[2]: table for table in of_garment.within}
    others = style in KINDS
    known = {*COMMON, style} if others else {option.path.rpartition(".")[2] for option in of_garment.options}
    here = [option for option in of_garment.options if option.path.rpartition(".")[2] in known]
    out = [
        form.group(
            "garment",
            [option for option in here if option.path.rpartition(".")[2] not in HEM],
            [own[name] for name in (("over",) if others else ("over", "growth"))],
        )
    ]
    if others:
        out.append(form.group(style, own[style].options, own[style].within))
        places: Mapping[str, tuple[str, ...]] = {"bands": ("bands",)}
    else:
        hem = [option for option in here if option.path.rpartition(".")[2] in HEM]
        out.append(form.group("hem", hem, []))
        places = PLACES
    for name, keys in places.items():
        single = [own[key] for key in keys if not own[key].several and not own[key].left_out]
        rest = [own[key] for key in keys if own[key] not in single]
        out.append(form.group(name, [option for table in single for option in table.options], rest))
    sewing, cloth, prices = described("sewing"), described("cloth.main"), described("prices")
    out.append(form.group("sewing", sewing.options, sewing.within))
    out.append(form.of_cloths(cloth, list(tables.get("cloth", {}))))
    out.append(form.group("prices", prices.options, []))
    return tuple(out)


def _with_its_style(tables: Mapping[str, Any], style: str) -> dict[str, Any]:
    """The tables with all that the style says in them."""
    garment = dict(STYLES[style])
    for key, value in tables.get("garment", {}).items():
        base = garment.get(key)
        garment[key] = {**base, **value} if isinstance(base, Mapping) and isinstance(value, Mapping) else value
    # whatever differs from the plain default is then told
    return {**tables, "garment": {**garment, "style": "\0"}}


def _at(path: str, cloth: str) -> str:
    """The path, of a cloth of whichever name."""
    main = f"cloth.{MAIN}"
    return f"cloth.{cloth}{path.removeprefix(main)}" if path.startswith(main) else path


class _Form:
    """Makes the controls of a garment: ``filled`` are all pairs, its style's among them."""

    def __init__(self, filled: Mapping[str, str], garment: Mapping[str, Any], style: str, unit: Unit) -> None:
        self.filled, self.unit = {**filled, "garment.style": style}, unit
        self.garment = {**garment, "style": style}

    def group(self, name: str, options: Sequence[Option], within: Sequence[Described]) -> Group:
        """The controls of a place, and the entries below them."""
        controls = tuple(self.control(option, option.path) for option in options if self.applies(option.path))
        entries = [entry for table in within for entry in self.entries(table)]
        adds = tuple((table.path, _(HEADINGS[table.path])) for table in within if table.several)
        return Group(name, _(HEADINGS[name]), controls, tuple(entries), adds)

    def of_cloths(self, cloth: Described, names: Sequence[str]) -> Group:
        """The controls of the first cloth, and the others as entries."""
        first, *others = [name for name in names if name != LEFT_OVER] or [MAIN]
        controls = tuple(self.control(option, _at(option.path, first)) for option in cloth.options)
        entries = [entry for table in cloth.within for entry in self.entries(table, first)]
        entries += self.entries(described("cloth.remnants"))
        for name in others:
            own = (self.control(option, _at(option.path, name)) for option in cloth.options)
            entries.append(Entry(f"cloth.{name}", _("Cloth {name}", name=named(name)), tuple(own)))
            entries += [entry for table in cloth.within for entry in self.entries(table, name)]
        lists = [*(table for table in cloth.within if table.several), described("cloth.remnants")]
        adds = [(_at(table.path, first), _(HEADINGS[table.path])) for table in lists]
        return Group("cloth", _(HEADINGS["cloth"]), controls, tuple(entries), (*adds, ("cloth", _("Another cloth"))))

    def entries(self, table: Described, cloth: str = MAIN) -> Iterator[Entry]:
        """The entries of a list, or the one table; of a cloth, the one of that name."""
        heading, root = _(HEADINGS[table.path]), _at(table.path, cloth)
        if not table.several:
            if self.applies(table.path):
                own = (self.control(option, _at(option.path, cloth)) for option in table.options)
                yield Entry("", heading, tuple(own))
            return
        numbers = {path.removeprefix(f"{root}.").split(".")[0] for path in self.filled if path.startswith(f"{root}.")}
        for number in sorted(int(each) for each in numbers if each.isdigit()):
            path = f"{root}.{number}"
            keys = ((option, option.path.rpartition(".")[2]) for option in table.options)
            controls = (
                self.control(option, f"{path}.{key}") for option, key in keys if self.applies(option.path, number)
            )
            yield Entry(path, _("{heading} {number}", heading=heading, number=number + 1), tuple(controls))

    def applies(self, path: str, number: int | None = None) -> bool:
        """Whether the option means something beside the others."""
        plain = path.removeprefix("garment.")
        if plain == path or plain not in APPLIES or (number is None and "." not in plain and plain != "train"):
            return True
        first = plain.partition(".")[0]
        if number is None:
            return APPLIES[plain](chosen_in(self.garment))
        return APPLIES[plain](chosen_in(self.garment, first, self._entry(first, number)))

    def _entry(self, name: str, number: int) -> Mapping[str, Any]:
        """The entry of a list of [garment], its style's where it says nothing itself."""
        listed = self.garment.get(name, STYLES[self.garment["style"]].get(name, []))
        entry = listed[number] if number < len(listed) else {}
        return entry if isinstance(entry, Mapping) else {}

    def control(self, option: Option, path: str) -> Control:
        """The control of one option."""
        takes = option.takes
        value = self.filled.get(path, "")
        gate = path.rpartition(".")[2] in GATES.get(option.path.rpartition(".")[0], ())
        if not value and takes.kind in ("word", "yes or no") and option.default is not None and not gate:
            value = {True: "yes", False: "no"}.get(option.default, str(option.default))
        words = tuple((word, word_said(option.path, word)) for word in takes.words)
        if takes.kind == "yes or no":
            words = (("yes", _("yes")), ("no", _("no")))
        return Control(
            path,
            label_of(option.path),
            _(option.description) if option.description else "",
            takes,
            value,
            words,
            "" if gate else self._usual(option),
            self.filled.get(path + MOST, "") if takes.span else None,
            option.path in RARE,
        )

    def _usual(self, option: Option) -> str:
        """What it is when nothing is filled in, as it is said."""
        default = option.default
        if default is None or default == () or isinstance(default, bool):
            return ""
        if isinstance(default, str):
            return word_said(option.path, default)
        if option.takes.kind == "length":
            return format_length(default, self.unit)
        return decimal(default, 2).rstrip("0").rstrip(".,")
