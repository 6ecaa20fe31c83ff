"""garment.json: the whole garment in numbers, centimetres, for other programs; and its pieces read back."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

from ellwand.depict import words
from ellwand.depict.shopping import bill, purchases
from ellwand.depict.words.blazon import arms
from ellwand.geometry.lines import Line
from ellwand.language import SOURCE, speaking
from ellwand.model.choices import Choices
from ellwand.model.draft import EdgeRef, Part, Seam
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay, opened, other_face
from ellwand.model.piece import Edge, Guide, Level, Mark, Piece
from ellwand.model.tearing import TearPlan
from ellwand.publish.adornment_json import adornment_document
from ellwand.sew.pace import totals

SCHEMA = "ellwand/1"
PLACES = 6
"""Decimals of a centimetre that are written, so that rounding adds up to nothing along a long seam."""


@dataclass(frozen=True, slots=True)
class Stitched:
    """What garment.json says of pieces and seams."""

    pieces: tuple[Piece, ...]
    parts: tuple[Part, ...]
    seams: tuple[Seam, ...]


def garment_json(garment: Garment) -> str:
    """The document as text, the same for the same garment: in English whatever is spoken, for it is data."""
    with speaking(SOURCE):
        return json.dumps(document(garment), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def _shopping(garment: Garment) -> list[dict[str, Any]]:
    """What to buy of each cloth: what its lays take together, what each step adds (cm), and what it costs."""
    return [
        {"cloth": cloth.name, **_plain(asked), "length": round(asked.length, PLACES)}
        for cloth, asked in purchases(garment.lays, garment.cloths)
    ]


def document(garment: Garment) -> dict[str, Any]:
    """The document as plain values."""
    shell = garment.proof.shell
    unit = garment.wearer.unit
    doc: dict[str, Any] = {
        "schema": SCHEMA,
        "title": garment.title,
        "name": garment.wearer.name,
        "unit": unit,
        "wearer": {
            name: {"value": round(m.value, 2), "source": m.source, "sd": round(m.sd, 2)}
            for name, m in garment.wearer.measures.items()
        },
        "arms": _plain(garment.wearer.arms),
        "taken_up": _plain(garment.draft.taken_up),
        "choices": {**_choices(garment.choices), "settled": _plain(garment.draft.settled)},
        "pieces": [_piece(piece) for piece in garment.draft.pieces],
        "parts": _plain(garment.draft.parts),
        **({"applied": _plain(garment.draft.applied)} if garment.draft.applied else {}),
        "seams": _plain(garment.draft.seams),
        "rims": [
            {**_plain(rim), "length": round(rim.length, PLACES), "opens_to": " and ".join(rim.opens_to)}
            for rim in shell.rims
        ],
        "shell": {
            "vertices": shell.vertices,
            "edges": shell.edges,
            "faces": shell.faces,
            "euler": shell.euler,
            "rims": len(shell.rims),
            "orientable": shell.orientable,
        },
        "girths": _plain(garment.proof.girths),
        "checks": [
            {
                "id": check_id(finding),
                "outcome": finding.outcome,
                "measured": _number(finding.measured),
                "needed": _number(finding.needed),
                "unit": finding.unit,
                "why": words.why(finding, unit),
                "mend": words.mend(finding, unit),
            }
            for finding in garment.proof.findings
        ],
        "lays": [_lay(lay, garment) for lay in garment.lays],
        **({"tears": [_tears(plan) for plan in garment.tears]} if garment.tears else {}),
        **({"shopping": _shopping(garment)} if garment.lays else {}),
        "sewing": [
            {
                "n": step.n,
                "do": words.step(step, garment.draft, unit),
                "parts": list(step.parts),
                "seams": list(step.seams),
                "needs": list(step.needs),
                "code": step.code,
                "edges": _plain(step.edges),
                "folds": step.folds,
                "seam_iso": step.seam_iso,
                "press": step.press,
                "reinforce": _plain(step.reinforce),
                **({"selvedges": list(step.selvedges)} if step.selvedges else {}),
                "minutes_hand": round(step.minutes_hand, 1),
                "minutes_machine": round(step.minutes_machine, 1),
                "thread_m": round(step.thread_m, 2),
                "rows": _plain(step.rows),
            }
            for step in garment.steps
        ],
        "totals": _plain(totals(garment.steps)),
        **({"costs": _plain(bill(garment))} if garment.prices is not None and garment.lays else {}),
        "closures": _plain(garment.closings),
        **({"arms": told} if (told := _arms(garment)) else {}),
        **adornment_document(garment.draft.adornment, _plain),
        "period": [
            {"id": check_id(each), **_plain(each.values), "why": words.why(each, unit), "mend": words.mend(each, unit)}
            for each in garment.proof.findings
            if each.code.startswith("period")
        ],
        "cautions": [words.caution(caution, unit) for caution in garment.cautions],
    }
    if not garment.lays:
        del doc["lays"]
    return doc


def _arms(garment: Garment) -> list[dict[str, str]]:
    """The field of each face in a blazon and in plain words; none without any."""
    return [{"on": on, "blazon": blazon, "plainly": plain} for on, blazon, plain in arms(garment.draft)]


def _tears(plan: TearPlan) -> dict[str, Any]:
    """The tears of one cloth in their order, what they part it into, and what is cut in the blocks; its lay is told."""
    return {
        "cloth": plan.lay.cloth,
        "tears": _plain(plan.tears),
        "blocks": _plain(plan.blocks),
        "cuts": _plain(plan.cuts),
    }


def check_id(finding: Finding) -> str:
    """A name for a check: what was checked, of what."""
    return f"{finding.code}:{finding.subject}" if finding.subject else finding.code


COMMON = ("style", "layer", "sewing", "beneath_mm", "date", "region", "other", "bands")
"""Choices that a garment has which is not cut as a tunic is."""


def _choices(choices: Choices) -> dict[str, Any]:
    """What was chosen; for a garment of its own cut without what is only said of a tunic."""
    plain: dict[str, Any] = _plain(choices)
    if choices.other is None:
        return {key: value for key, value in plain.items() if key != "other"}
    return {key: plain[key] for key in COMMON}


def _lay(lay: Lay, garment: Garment) -> dict[str, Any]:
    """A lay as the document tells it.

    A lengthwise fold is told as such, x from the fold, two layers.  Where a part lies on the fold with one half of its
    outline, and on a crosswise fold, the cloth is told opened out; ``laid`` says how it lies on the table.
    """
    if lay.fold == "flat" or (lay.fold == "lengthwise" and not any(p.on_fold for p in lay.placements)):
        return {key: value for key, value in _plain(lay).items() if value != [] or key != "outline"}
    draft = garment.draft
    flat = opened(lay)
    cloth = next(cloth for cloth in garment.cloths if cloth.name == lay.cloth)
    if not cloth.reversible:
        mirrored = {part.id: part.mirrored for part in (*draft.parts, *draft.applied)}
        by_id = {piece.id: piece for piece in draft.pieces}
        faced = (
            p if p.flip == mirrored.get(p.part, p.flip) else other_face(p, by_id[p.piece]) for p in flat.placements
        )
        flat = replace(flat, placements=tuple(faced))
    told: dict[str, Any] = _plain(flat)
    return {**{key: value for key, value in told.items() if key != "outline"}, "laid": f"on a {lay.fold} fold"}


def _number(value: float | None) -> float | None:
    return None if value is None else round(value, PLACES)


def _plain(value: Any) -> Any:
    """Frozen values as lists, dicts and rounded numbers."""
    if is_dataclass(value):
        return {each.name: _plain(getattr(value, each.name)) for each in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, float):
        return round(value, PLACES) + 0.0
    if isinstance(value, (str, int, bool)) or value is None:
        return value
    return [_plain(each) for each in value]


def _line(line: Iterable[tuple[float, float]]) -> list[list[float]]:
    return [[round(x, PLACES) + 0.0, round(y, PLACES) + 0.0] for x, y in line]


def _piece(piece: Piece) -> dict[str, Any]:
    """``kind`` is told of applied pieces only, ``marks`` where there are any."""
    return {
        "id": piece.id,
        "name": piece.name,
        "cloth": piece.cloth,
        "count": piece.count,
        "place": piece.place,
        "small": piece.small,
        "sewn": _line(piece.sewn),
        "sewn_holes": [_line(hole) for hole in piece.sewn_holes],
        "cut": _line(piece.cut),
        "cut_holes": [_line(hole) for hole in piece.cut_holes],
        "edges": [
            {
                "id": edge.id,
                "kind": edge.kind,
                "points": _line(edge.points),
                "allowance": _number(edge.allowance),
                "turned": edge.turned,
            }
            for edge in piece.edges
        ],
        "levels": _plain(piece.levels),
        "guides": _plain(piece.guides),
        **({"kind": piece.kind} if piece.kind != "shell" else {}),
        **({"marks": _plain(piece.marks)} if piece.marks else {}),
        **({"tincture": piece.tincture} if piece.tincture else {}),
    }


def read_stitched(text: str) -> Stitched:
    """Pieces, parts and seams back from garment.json.

    Raises ValueError or KeyError when the text is not a document of this schema.
    """
    doc = json.loads(text)
    if doc["schema"] != SCHEMA:
        raise ValueError(f"the schema is {doc['schema']!r}, not {SCHEMA!r}")
    return Stitched(
        tuple(_read_piece(piece) for piece in doc["pieces"]),
        tuple(Part(**part) for part in doc["parts"]),
        tuple(Seam(**{**seam, "a": EdgeRef(**seam["a"]), "b": EdgeRef(**seam["b"])}) for seam in doc["seams"]),
    )


def _points(line: Iterable[Iterable[float]]) -> Line:
    return tuple((x, y) for x, y in line)


def _read_piece(piece: dict[str, Any]) -> Piece:
    return Piece(
        **{
            **piece,
            "sewn": _points(piece["sewn"]),
            "sewn_holes": tuple(_points(hole) for hole in piece["sewn_holes"]),
            "cut": _points(piece["cut"]),
            "cut_holes": tuple(_points(hole) for hole in piece["cut_holes"]),
            "edges": tuple(Edge(**{**edge, "points": _points(edge["points"])}) for edge in piece["edges"]),
            "levels": tuple(
                Level(**{**level, "centre": tuple(level["centre"]) if level["centre"] else None})
                for level in piece["levels"]
            ),
            "guides": tuple(Guide(guide["name"], _points(guide["points"])) for guide in piece["guides"]),
            "marks": tuple(Mark(**{**mark, "at": tuple(mark["at"])}) for mark in piece.get("marks", ())),
        }
    )
