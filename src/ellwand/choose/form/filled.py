"""What is filled in, as pairs of a path and a text, and the same as the sheet's tables.

A path is the sheet's own, with the number of an entry in it: ``garment.gores.0.base``.  The most of a range stands at
``garment.gores.0.base.most``.  A list that is left empty where its style has entries is ``garment.gores`` = ``none``.
Pairs leave out what the sheet would say anyway, so that the same garment has the same pairs.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

from ellwand.choose.fields import Takes, nearest
from ellwand.choose.form.described import ROOTS, Described, Option, described, lists, options
from ellwand.choose.options.others import COMMON
from ellwand.choose.styles import STYLES
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.others import KINDS
from ellwand.units import Unit, parse_length

Pairs = tuple[tuple[str, str], ...]
Tables = dict[str, Any]

START: Final[Pairs] = (("cloth.main.width", "150 cm"),)
"""Where a garment of which nothing is said yet starts from: a tunic, and a usual width of cloth."""
MOST_PAIRS: Final = 400
MOST_ENTRIES: Final = 40
LONGEST: Final = 300
"""No honest form is larger."""
MOST: Final = ".most"
OWN: Final = "own"
"""Chosen in place of a word where a length of one's own stands at the path with ``.own`` behind it."""
EMPTY: Final = "none"
GATES: Final[Mapping[str, tuple[str, ...]]] = {
    "garment.division": ("by",),
    "garment.growth": ("months",),
    "sewing.timed": ("length", "minutes"),
    "cloth.main.repeat": ("across", "along"),
}
"""A table that may be left out is there when one of these is filled in."""
USUAL: Final[Mapping[str, Any]] = {"garment.division.tinctures": ["gules", "or"]}
"""What has to be given once its table is there (to begin with)."""


def tables_of(pairs: Iterable[tuple[str, str]]) -> Tables:
    """The sheet's tables that were filled in; texts that are no such value stand as they are, for the reader to refuse.

    Raises BadInput for a path that no option has, or for more than a form can hold.
    """
    pairs = list(pairs)
    if len(pairs) > MOST_PAIRS:
        raise BadInput("", _("the form is too large"), _("fill in fewer fields"))
    texts: dict[tuple[str | int, ...], str] = {}
    for path, text in pairs:
        if len(text) > LONGEST:
            raise BadInput(path[:60], _("the text is too long"), _("write up to {count} characters", count=LONGEST))
        keys = _keys(path)
        # several controls of one name make a list
        texts[keys] = f"{texts[keys]}, {text}" if keys in texts and text.strip() else texts.get(keys) or text.strip()
    out: Tables = {}
    for keys, text in texts.items():
        if text == OWN:
            text = texts.get((*keys, "own"), "")
        if text and keys[-1] not in ("most", "own"):
            _put(out, keys, text, texts.get((*keys, "most"), ""))
    for table in (table for root in ROOTS for table in described(root).within if table.left_out):
        _drop_unasked(out, table)
    _closed_up(out)
    return _of_its_style(out)


def _keys(path: str) -> tuple[str | int, ...]:
    """The path's steps.

    Raises BadInput where no option is called so.
    """
    steps = [int(step) if step.isascii() and step.isdigit() and len(step) < 3 else step for step in path.split(".")]
    plain = plain_path(path)
    if plain not in options() and plain not in lists():
        raise BadInput(path[:60], _("no such choice"), nearest(plain[:60], options()))
    if any(isinstance(step, int) and step >= MOST_ENTRIES for step in steps):
        raise BadInput(path[:60], _("there are too many of them"), _("keep to {count}", count=MOST_ENTRIES))
    for at, step in enumerate(steps[1:], 1):
        in_list = plain_list(".".join(map(str, steps[:at]))) in lists() and not isinstance(steps[at - 1], int)
        if in_list != isinstance(step, int):
            raise BadInput(path[:60], _("no such choice"), _("leave it out"))
    return tuple(steps)


def plain_path(path: str) -> str:
    """The option's own path: without the numbers of entries, of whichever cloth."""
    plain = re.sub(r"\.\d{1,2}(?=\.)", "", path.removesuffix(MOST).removesuffix(f".{OWN}"))
    named = re.match(r"cloth\.(?!remnants\.|remnants$)[^.]{1,40}\.", plain)
    return f"cloth.main.{plain[named.end() :]}" if named else plain


def plain_list(path: str) -> str:
    """The same of a list."""
    return plain_path(f"{path}.").removesuffix(".")


def _put(tables: Tables, keys: Sequence[str | int], text: str, most: str) -> None:
    """Set one option in the nested tables; lists are held as tables of numbers until they are closed up."""
    plain = plain_path(".".join(map(str, keys)))
    here: dict[Any, Any] = tables
    for key in keys[:-1]:
        here = here.setdefault(key, {})
        if not isinstance(here, dict):
            raise BadInput(".".join(map(str, keys))[:60], _("no such choice"), _("leave it out"))
    if plain in lists():
        here.setdefault(keys[-1], {})
        return
    value = _value(text, options()[plain].takes)
    here[str(keys[-1])] = [value, _value(most, options()[plain].takes)] if most else value


def _value(text: str, takes: Takes) -> Any:
    """The text as a TOML sheet would have it, as far as it can be read."""
    if takes.kind == "yes or no":
        return {"yes": True, "no": False}.get(text, text)
    if takes.kind in ("number", "whole"):
        try:
            number = float(text.replace(",", ".") if "." not in text else text)
        except ValueError:
            return text
        return int(number) if number % 1 == 0 and abs(number) < 1e9 else number
    if takes.kind == "words":
        return [word.strip() for word in text.split(",") if word.strip()]
    if takes.kind == "corners":
        return [corner.split() for corner in text.split(",")]
    if takes.kind == "length" and text not in takes.words and re.fullmatch(r"0?[.,]\d+", text):
        return float(text.replace(",", "."))  # a part is told as a number
    return text


def _drop_unasked(tables: Tables, table: Described) -> None:
    """Take out a table that may be left out and of which nothing that matters was filled in."""
    *above, name = table.path.split(".")
    here: Any = tables
    for key in above:
        here = here.get(key, {})
    found = here.get(name)
    if found is None:
        return
    if not _asked(table, found):
        del here[name]
        return
    for option in table.options:
        if option.path in USUAL:
            found.setdefault(option.path.rpartition(".")[2], USUAL[option.path])


def _asked(table: Described, found: Mapping[str, Any]) -> bool:
    """Whether anything was filled in that makes the table."""
    return any(found.get(key) not in (None, "") for key in GATES.get(table.path, found))


def _closed_up(here: Tables) -> None:
    """Lists out of tables of numbers, in order."""
    for key, value in here.items():
        if isinstance(value, dict):
            _closed_up(value)
            if value and all(isinstance(each, int) for each in value):
                here[key] = [value[number] for number in sorted(value)]
    garment = here.get("garment")
    if isinstance(garment, dict):
        for path in lists():
            root, _dot, name = path.partition(".")
            if root == "garment" and garment.get(name) == {}:
                garment[name] = []


def _of_its_style(tables: Tables) -> Tables:
    """Without what a garment of this style has not: it was filled in for another one."""
    garment = tables.get("garment", {})
    style = garment.get("style", "tunic")
    keep = {*COMMON, style} if style in KINDS else {key for key in garment if key not in KINDS}
    if garment:
        tables["garment"] = {key: value for key, value in garment.items() if key in keep}
    return {key: value for key, value in tables.items() if value}


def pairs_of(tables: Mapping[str, Any], unit: Unit = "cm") -> Pairs:
    """The pairs of the sheet's tables, in the order of the options; ``unit``: of the wearer's plain numbers.

    The wearer's own table has none.
    """
    garment = tables.get("garment", {})
    style = garment.get("style", "tunic")
    usual = STYLES.get(style, {}) if isinstance(style, str) else {}
    out = list(_table(described("garment"), "garment", garment, usual, unit))
    out += _table(described("sewing"), "sewing", tables.get("sewing", {}), {}, unit)
    for name, cloth in _cloths(tables.get("cloth", {})):
        own: Unit = "in" if cloth.get("unit") == "in" else "cm"
        out += _table(described("cloth.main"), f"cloth.{name}", cloth, {}, own)
    for number, remnant in enumerate(tables.get("cloth", {}).get("remnants", [])):
        out += _table(described("cloth.remnants"), f"cloth.remnants.{number}", remnant, {}, "cm")
    out += _table(described("prices"), "prices", tables.get("prices", {}), {}, unit)
    return tuple(out)


def _cloths(table: Mapping[str, Any]) -> Iterable[tuple[str, Mapping[str, Any]]]:
    """The cloths by name; a sheet with one may leave its name out."""
    named = {key: value for key, value in table.items() if key != "remnants"}
    if named and not any(isinstance(value, dict) for value in named.values()):
        return [("main", named)]
    return [(key, value) for key, value in named.items() if isinstance(value, dict)]


def _table(
    table: Described, path: str, given: Mapping[str, Any], usual: Mapping[str, Any], unit: Unit
) -> Iterable[tuple[str, str]]:
    """The pairs of one table and those within it."""
    for option in table.options:
        key = option.path.rpartition(".")[2]
        gate = key in GATES.get(table.path, ())
        if key in given and (
            option.required or gate or not _same(given[key], usual.get(key, option.default), option, unit)
        ):
            yield from _pair(f"{path}.{key}", given[key], option)
    for inner in table.within:
        key = inner.path.rpartition(".")[2]
        if key not in given:
            continue
        if inner.left_out and not _asked(inner, given[key]):
            # a table with nothing in it may still mean what it means by itself
            usually = {option.path.rpartition(".")[2]: option.default for option in inner.options}
            gates = {gate: usually[gate] for gate in GATES.get(inner.path, ()) if usually[gate]}
            if not gates:
                continue
            given = {**given, key: {**given[key], **gates}}
        if not inner.several:
            yield from _table(inner, f"{path}.{key}", given[key], usual.get(key, {}), unit)
        elif not _same_list(inner, given[key], usual.get(key, []), unit):
            if not given[key]:
                yield f"{path}.{key}", EMPTY
            for number, entry in enumerate(given[key]):
                pairs = list(_table(inner, f"{path}.{key}.{number}", entry, {}, unit))
                # an entry of which nothing differs from the default is there all the same
                yield from pairs or [(f"{path}.{key}.{number}.{_first(inner)}", _said(inner.options[0].default))]


def _first(table: Described) -> str:
    return table.options[0].path.rpartition(".")[2]


def _same_list(table: Described, given: Sequence[Any], usual: Sequence[Any], unit: Unit) -> bool:
    """Whether the entries are those that the style has anyway."""
    if len(given) != len(usual) or not all(isinstance(each, Mapping) for each in given):
        return False
    return all(
        _same(one.get(key, option.default), other.get(key, option.default), option, unit)
        for one, other in zip(given, usual, strict=True)
        for option in table.options
        for key in (option.path.rpartition(".")[2],)
    )


def _same(one: Any, other: Any, option: Option, unit: Unit) -> bool:
    """Whether two values of an option come to the same."""
    if isinstance(one, (list, tuple)) and isinstance(other, (list, tuple)):
        return len(one) == len(other) and all(_same(a, b, option, unit) for a, b in zip(one, other, strict=True))
    if one == other and not (isinstance(one, (int, float)) and unit == "in"):
        return True
    if option.takes.kind != "length" or one in option.takes.words or other in option.takes.words:
        return bool(one == other)
    try:
        # a default is in cm, whatever the unit
        return parse_length(one, unit) == parse_length(other, unit if isinstance(other, str) else "cm")
    except BadInput:
        return False


def _pair(path: str, value: Any, option: Option) -> Iterable[tuple[str, str]]:
    """One value as text; of a range the least and the most."""
    if option.takes.span and isinstance(value, list):
        least, most = value if len(value) == 2 else (value, "")
        yield path, _said(least)
        yield path + MOST, _said(most)
    elif value is not None and value != "":
        yield path, _said(value)


def _said(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, (list, tuple)):
        return ", ".join(
            " ".join(map(_said, each)) if isinstance(each, (list, tuple)) else _said(each) for each in value
        )
    return str(value)


def with_entry(pairs: Pairs, path: str, unit: Unit = "cm") -> Pairs:
    """With another entry at the end of a list, made of defaults and of the first word where one must be chosen.

    Raises BadInput where there is no such list.
    """
    tables = tables_of(pairs)
    if path == "cloth":
        return pairs_of({**tables, "cloth": _with_cloth(tables.get("cloth", {}))}, unit)
    plain = plain_list(path)
    if plain not in lists():
        raise BadInput(path[:60], _("there is no such list"), nearest(path[:60], lists()))
    entries = _entries(tables, path)
    made: Tables = {}
    taken = [entry.get(_first(lists()[plain])) for entry in entries]
    for option in lists()[plain].options:
        if option.required:
            free = [word for word in option.takes.words if word not in taken]
            made[option.path.rpartition(".")[2]] = (free or option.takes.words or (FIRST[option.path],))[0]
    made.update(BESIDE.get(plain, {}))
    _set_entries(tables, path, [*entries, made])
    return pairs_of(tables, unit)


def _with_cloth(cloths: Tables) -> Tables:
    """With one cloth more, of the usual width.

    Raises BadInput where there are as many as there are names for.
    """
    free = next((name for name in FURTHER if name not in cloths), None)
    if free is None:
        raise BadInput("cloth", _("there are too many of them"), _("keep to {count}", count=len(FURTHER)))
    return {**cloths, free: {"width": START[0][1]}}


def without_entry(pairs: Pairs, path: str, unit: Unit = "cm") -> Pairs:
    """Without one entry of a list (``garment.gores.1``), or without a cloth (``cloth.second``).

    Raises BadInput where there is no such entry.
    """
    name, _dot, number = path.rpartition(".")
    tables = tables_of(pairs)
    cloths = tables.get("cloth", {})
    if name == "cloth" and number in cloths and len(cloths.keys() - {"remnants"}) > 1:
        return pairs_of({**tables, "cloth": {key: each for key, each in cloths.items() if key != number}}, unit)
    entries = _entries(tables, name) if plain_list(name) in lists() else []
    if not number.isdigit() or int(number) >= len(entries):
        raise BadInput(path[:60], _("there is no such entry"), _("choose one that is there"))
    _set_entries(tables, name, [entry for n, entry in enumerate(entries) if n != int(number)])
    return pairs_of(tables, unit)


FURTHER: Final = ("second", "third", "fourth", "fifth", "sixth")
"""What further cloths are called."""
FIRST: Final[Mapping[str, str]] = {
    "garment.over.thickness_mm": "2",
    "cloth.main.faults.x": "10 cm",
    "cloth.main.faults.y": "10 cm",
    "cloth.main.faults.width": "5 cm",
    "cloth.main.faults.length": "5 cm",
}
"""What a new entry begins with where a number must be given: our own choice."""
BESIDE: Final[Mapping[str, Tables]] = {
    "cloth.remnants": {"width": "50 cm", "length": "50 cm"},
    "garment.charges": {"motif": "roundel"},
}


def _entries(tables: Tables, path: str) -> list[Tables]:
    """The entries that a list has, by what was filled in or by its style."""
    *above, name = path.split(".")
    here: Any = tables
    for key in above:
        here = here.get(key, {})
    if name not in here and above == ["garment"]:
        style = STYLES.get(here.get("style", "tunic"), {})
        return [dict(entry) for entry in style.get(name, [])]
    return [dict(entry) for entry in here.get(name, [])]


def _set_entries(tables: Tables, path: str, entries: list[Tables]) -> None:
    *above, name = path.split(".")
    here = tables
    for key in above:
        here = here.setdefault(key, {})
    here[name] = entries
