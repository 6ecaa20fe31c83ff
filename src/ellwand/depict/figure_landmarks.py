"""The points that lead the outlines of a standing adult, our own drawing, in cm, the floor at y = 0.

Heights are the means of women and men in the survey of measure/survey.json (ANSUR II, 2012), rounded; widths and
depths are a little slimmer than theirs, as a dress form's are.  From the front and from behind the middle is x = 0;
from the side the figure looks to the right.
"""

from __future__ import annotations

from typing import Final, Literal

from ellwand.geometry.lines import Line, Point

View = Literal["front", "side", "back"]
VIEWS: Final[tuple[View, ...]] = ("front", "side", "back")

CROWN: Final = 169.0
NAPE: Final = 145.7
SHOULDER: Final = 138.8
ARMPIT: Final = 128.4
BUST: Final = 123.1
WAIST: Final = 105.9
BELLY: Final = 101.2
HIP: Final = 86.1
CROTCH: Final = 81.4
KNEE: Final = 46.9
"""Heights (cm); the natural waist is 4 cm above the survey's, which lay at the navel."""

Axis = tuple[tuple[float, float, float], ...]
"""Points down the middle of a limb with half its width there: (x, y, half)."""

FRONT_ARM: Final[Axis] = (
    (20.2, 128.5, 4.6),
    (22.6, 118.5, 4.2),
    (24.4, 111.0, 3.8),
    (25.8, 105.0, 3.8),
    (27.0, 99.5, 3.9),
    (28.6, 91.5, 3.2),
    (30.0, 83.6, 2.3),
    (30.7, 79.5, 2.6),
    (31.3, 75.0, 3.1),
    (31.8, 70.8, 3.0),
    (32.2, 67.2, 2.4),
    (32.5, 64.8, 1.3),
)
FRONT_TIP: Final[Point] = (32.6, 63.6)
SIDE_ARM: Final[Axis] = (
    (-1.6, 137.0, 4.6),
    (-1.8, 132.0, 5.6),
    (-2.3, 126.0, 5.3),
    (-2.8, 117.0, 4.7),
    (-2.6, 108.0, 4.1),
    (-1.6, 101.0, 4.2),
    (0.8, 92.0, 3.5),
    (3.2, 83.6, 2.6),
    (4.0, 79.5, 3.1),
    (4.9, 75.0, 3.5),
    (5.6, 70.8, 3.2),
    (6.2, 67.2, 2.4),
    (6.6, 64.8, 1.3),
)
SIDE_TIP: Final[Point] = (6.8, 63.6)

THUMB: Final[Line] = (
    (29.9, 68.5),
    (29.2, 73.0),
    (28.7, 75.2),
    (28.0, 71.4),
    (26.4, 71.6),
    (26.1, 75.6),
    (27.2, 79.6),
)

HEAD: Final[Line] = (
    (0.0, CROWN),
    (3.6, 168.9),
    (6.8, 166.4),
    (8.1, 161.5),
    (7.9, 156.0),
    (6.8, 151.5),
    (5.3, 148.6),
)
NECK: Final[Line] = (
    (5.3, 148.6),
    (5.2, 146.0),
    (5.6, 143.6),
    (9.0, 142.2),
    (14.0, 140.9),
    (17.4, 139.9),
)
SIDE: Final[Line] = (
    (15.6, ARMPIT),
    (15.3, BUST),
    (14.2, 115.5),
    (12.8, 109.5),
    (12.5, WAIST),
    (13.2, BELLY),
    (15.2, 95.0),
    (17.2, HIP),
    (17.4, 79.5),
    (16.5, 70.0),
    (15.0, 59.0),
    (13.9, 51.5),
    (13.4, KNEE),
    (13.7, 42.0),
    (14.7, 35.0),
    (13.9, 27.5),
    (11.6, 17.0),
    (10.6, 10.5),
    (11.2, 6.8),
    (13.6, 3.8),
    (14.4, 0.0),
    (10.5, 0.0),
)
INSIDE: Final[Line] = (
    (7.0, 0.0),
    (3.6, 0.0),
    (4.4, 3.8),
    (5.4, 7.4),
    (5.2, 10.5),
    (4.6, 18.0),
    (2.8, 28.0),
    (2.2, 35.0),
    (3.2, 42.0),
    (3.7, KNEE),
    (3.2, 52.0),
    (2.2, 60.0),
    (1.2, 70.0),
    (0.6, 77.0),
    (0.0, CROTCH),
)
"""The right half from the front, from the crown outward and down; the arm lies between neck and side."""

FACE: Final[Line] = (
    (0.6, CROWN),
    (4.6, 168.9),
    (8.8, 166.8),
    (10.8, 162.4),
    (10.6, 159.0),
    (10.6, 157.0),
    (12.8, 153.6),
    (11.0, 151.9),
    (11.0, 150.2),
    (11.2, 147.2),
    (9.2, 145.6),
    (6.2, 145.6),
    (5.2, 143.4),
    (5.0, 139.4),
)
FRONT: Final[Line] = (
    (5.0, 139.4),
    (7.2, 135.5),
    (10.2, 129.5),
    (11.9, BUST),
    (11.3, 117.0),
    (10.2, 111.0),
    (9.8, WAIST),
    (10.6, BELLY),
    (10.7, 96.0),
    (9.9, HIP),
    (9.7, 79.0),
    (9.3, 69.0),
    (8.0, 58.0),
    (7.3, 51.0),
    (7.0, KNEE),
    (5.9, 41.5),
    (5.2, 34.0),
    (4.1, 22.0),
    (3.2, 12.0),
    (4.6, 8.6),
    (9.6, 5.6),
    (15.0, 3.6),
    (18.6, 3.0),
    (19.2, 0.0),
    (16.0, 0.0),
)
BEHIND: Final[Line] = (
    (-4.4, 0.0),
    (-7.6, 0.0),
    (-7.0, 5.2),
    (-4.4, 10.0),
    (-4.9, 17.0),
    (-7.0, 27.0),
    (-7.9, 34.0),
    (-6.6, 41.5),
    (-5.4, KNEE),
    (-6.0, 54.0),
    (-7.6, 64.0),
    (-9.0, 74.0),
    (-10.3, 79.5),
    (-12.4, HIP),
    (-11.7, 92.0),
    (-9.0, 99.0),
    (-7.6, WAIST),
    (-8.6, 113.0),
    (-10.8, 121.0),
    (-11.8, 129.0),
    (-11.0, 136.5),
    (-8.6, 142.2),
    (-6.6, NAPE),
    (-5.5, 149.3),
    (-6.6, 153.0),
    (-8.9, 157.0),
    (-9.2, 161.8),
    (-8.0, 165.8),
    (-4.4, 168.6),
    (0.6, CROWN),
)
"""From the side: down the front, then from the heel up behind."""

FAINT: Final[dict[View, tuple[Line, ...]]] = {
    "front": (
        ((5.3, 148.6), (3.8, 146.4), (0.0, 145.6), (-3.8, 146.4), (-5.3, 148.6)),
        ((1.6, 138.6), (6.0, 139.6), (11.0, 140.0)),
        ((-1.6, 138.6), (-6.0, 139.6), (-11.0, 140.0)),
    ),
    "side": (((-0.4, 158.4), (-1.6, 160.4), (-3.2, 158.4), (-2.4, 155.4), (-0.9, 154.2), (-0.4, 155.6)),),
    "back": (
        ((5.4, 133.5), (4.6, 129.0), (5.6, 125.0), (9.0, 122.5)),
        ((-5.4, 133.5), (-4.6, 129.0), (-5.6, 125.0), (-9.0, 122.5)),
        ((1.0, 80.2), (5.0, 78.6), (10.0, 79.4)),
        ((-1.0, 80.2), (-5.0, 78.6), (-10.0, 79.4)),
    ),
}
"""The few lines that tell front from back."""
