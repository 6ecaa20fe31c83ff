"""The measurements: what each is called, how it is taken, and what it is mistaken for.

Terms and clauses are those of ISO 8559-1:2017 as far as they could be learnt from what others print of it; the
standard's own text was not seen, and ``clause_support`` says how sure each clause is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from ellwand.language import N_

Support = Literal["A", "B", "memory", ""]
"""How sure a clause is: A surest, B less sure, from memory, or none known."""

Kind = Literal["length", "girth"]


@dataclass(frozen=True, slots=True)
class Measurement:
    """One measurement.  ``mistaken_for`` names the fields it is mixed up with; ``mind`` says how to tell them apart."""

    label: str
    kind: Kind
    how: str
    term: str = ""
    clause: str = ""
    clause_support: Support = ""
    mind: str = ""
    mistaken_for: tuple[str, ...] = ()


MEASUREMENTS: Final[Mapping[str, Measurement]] = MappingProxyType(
    {
        "height": Measurement(
            N_("height"),
            "length",
            N_("without shoes, back to a wall, from the crown to the floor"),
            "stature",
            "5.1.1",
            "B",
        ),
        "bust_girth": Measurement(
            N_("bust or chest"),
            "girth",
            N_("level all round, over the fullest part of the bust or chest, arms down, breath let out"),
            "bust girth (women), chest girth (men)",
            "5.3.4",
            "A",
            N_("over the clothes that will be worn beneath, not over a coat; the tape lies, it does not pull"),
        ),
        "waist_girth": Measurement(
            N_("natural waist"),
            "girth",
            N_("level, half way between the lowest rib and the top of the hip bone"),
            "waist girth",
            "5.3.10",
            "A",
            N_("not where trousers sit and not at the navel: bend to the side, and the crease is the waist"),
            ("belly_girth",),
        ),
        "belly_girth": Measurement(
            N_("belly"),
            "girth",
            N_("level, at the navel or over the fullest part of the belly, breath let out"),
            mind=N_("lower than the natural waist, by about 4 cm; the one that counts when a child is carried"),
            mistaken_for=("waist_girth",),
        ),
        "hip_girth": Measurement(
            N_("hip"),
            "girth",
            N_("level, over the fullest part of the seat, feet together"),
            "hip girth",
            "5.3.13",
            "A",
            N_("not at the hip bones: look from the side where the seat stands out most"),
            ("belly_girth",),
        ),
        "shoulder_girth": Measurement(
            N_("round the shoulders"),
            "girth",
            N_("level round both upper arms, hanging, at the widest"),
            mind=N_("the arms are inside the tape"),
            mistaken_for=("bust_girth",),
        ),
        "across_shoulder": Measurement(
            N_("across the shoulders"),
            "length",
            N_("at the back, from one shoulder point up over the nape bone and down to the other"),
            "shoulder width",
            "5.4.3",
            "memory",
            N_("the shoulder point is the bony tip over the arm: lift the arm, and a dimple shows it"),
        ),
        "neck_girth": Measurement(
            N_("neck"),
            "girth",
            N_("round the neck just below the Adam's apple, square to the neck"),
            "neck girth",
            "5.3.2",
            "A",
            N_("higher and smaller than the base of the neck, by about 4 cm"),
            ("neck_base_girth",),
        ),
        "neck_base_girth": Measurement(
            N_("base of the neck"),
            "girth",
            N_(
                "over the nape bone, down both sides where neck and shoulder meet, to the pit of the neck; lay a cord"
                " there and measure the cord"
            ),
            "neck base girth",
            "5.3.3",
            "A",
            N_("where a neckline lies, lower than a shirt collar"),
            ("neck_girth",),
        ),
        "head_girth": Measurement(
            N_("head"),
            "girth",
            N_("level over the brows and the widest part at the back, over the hair as it will be worn"),
            "head girth",
            "5.3.1",
            "memory",
            N_("it decides whether the neck goes on, and nothing else tells it: always take it"),
        ),
        "arm_length": Measurement(
            N_("arm"),
            "length",
            N_("arm slightly bent, from the shoulder point over the elbow to the wrist bone"),
            "outer arm length",
            "5.7.8",
            "A",
            N_("from the shoulder point, not from the neck; take both arms where they differ"),
        ),
        "upper_arm_girth": Measurement(
            N_("upper arm"),
            "girth",
            N_("half way between shoulder point and elbow, the arm hanging loose"),
            "upper-arm girth",
            "5.3.16",
            "A",
            N_("the muscle at rest"),
        ),
        "wrist_girth": Measurement(
            N_("wrist"),
            "girth",
            N_("over the wrist bone"),
            "wrist girth",
            "5.3.19",
            "A",
            N_("smaller than the hand, by 3 to 6 cm"),
            ("hand_girth",),
        ),
        "hand_girth": Measurement(
            N_("hand"),
            "girth",
            N_("round the knuckles with the thumb tucked into the palm: what a closed cuff must pass"),
            "hand girth",
            mind=N_("the thumb is inside the tape"),
            mistaken_for=("wrist_girth",),
        ),
        "nape_to_waist": Measurement(
            N_("nape to waist"),
            "length",
            N_("down the back, from the nape bone to the natural waist"),
            "back neck point to waist",
            "5.4.5",
            "A",
            N_("it ends at the string round the waist, about twice as far down as the armpits"),
            ("scye_depth",),
        ),
        "scye_depth": Measurement(
            N_("nape to armpit"),
            "length",
            N_("straight down the back, from the nape bone to the level of the armpits"),
            "scye depth",
            mind=N_("hold a rule level under both arms and measure to it"),
            mistaken_for=("nape_to_waist",),
        ),
        "nape_to_floor": Measurement(
            N_("nape to floor"),
            "length",
            N_("straight down the back, from the nape bone to the floor"),
            "back neck height (cervicale)",
        ),
        "waist_to_floor": Measurement(
            N_("waist to floor"),
            "length",
            N_("at the side, from the natural waist straight to the floor"),
            "waist height",
        ),
        "hip_to_floor": Measurement(
            N_("hip to floor"),
            "length",
            N_("from the level of the fullest part of the seat straight to the floor"),
            "hip height",
            mind=N_("at the outside of the leg; about 5 cm more than from the crotch"),
            mistaken_for=("crotch_to_floor",),
        ),
        "crotch_to_floor": Measurement(
            N_("crotch to floor"),
            "length",
            N_("inside the leg, from the crotch to the floor; a book held level between the legs helps"),
            "inside leg height",
            mistaken_for=("hip_to_floor",),
        ),
        "knee_to_floor": Measurement(
            N_("knee to floor"),
            "length",
            N_("from the middle of the knee cap to the floor"),
            "knee height",
        ),
        "thigh_girth": Measurement(
            N_("thigh"),
            "girth",
            N_("level, just below the fold of the seat, feet a little apart"),
            "thigh girth",
            "5.3.20",
            "A",
        ),
        "calf_girth": Measurement(
            N_("calf"),
            "girth",
            N_("round the fullest part of the calf"),
            "calf girth",
            "5.3.24",
            "B",
        ),
        "foot_girth": Measurement(
            N_("foot"),
            "girth",
            N_("round the ball of the foot, standing"),
            mind=N_("where the foot is widest, at the joint of the big toe"),
        ),
    }
)
"""Every measurement by its field name, from what a beginner takes first."""

FIELDS: Final[tuple[str, ...]] = tuple(MEASUREMENTS)
