"""What the checks are called by and rest on where a wall is checked by the NDS."""

from __future__ import annotations

from collections.abc import Mapping

_BENT = "NDS 3.3, 4.3"
_SHEARED = "NDS 3.4, 4.3"
_BEARS = "NDS 3.10, 4.3"
_BOTH = "NDS 3.9, 4.3"
_PULLED = "NDS 12.2"
_SIDEWAYS = "NDS 12.3, 12.5"
_TURNED = "NDS 12.4.1"
_SAGS = "NDS 3.5, limit: own assumption"
_KEPT = ", as allowable stress"

CLAUSES: Mapping[str, str] = {
    "stud bending": _BOTH,
    "stud shear": _SHEARED,
    "stud, parked": _BENT,
    "lip rail bending": _BENT,
    "lip rail shear": _SHEARED,
    "lip rail, one mount lost": _BENT,
    "foot rail, parked": _BENT,
    "seam blocking": _BENT,
    "sheet bending": "EN 1995-1-1 6.1.6" + _KEPT,
    "sheet rolling shear": "EN 1995-1-1 6.1.7" + _KEPT,
    "hold insert": "EN 1995-1-1 (8.40b)" + _KEPT,
    "sheet screw pull-out": "NDS 12.2.2, 12.2.5",
    "sheet screw shear": _SIDEWAYS,
    "sheet screw combined": _TURNED,
    "sheet screw thread": "NDS 12.1.5.6",
    "stud to rail joint": _SIDEWAYS,
    "seam blocking joint": _SIDEWAYS,
    "mount pull-out": _PULLED,
    "mount plate prised off": _PULLED + ", statics",
    "mount pull-out and shear": _TURNED,
    "mount, parked": _PULLED,
    "one mount lost": _PULLED,
    "lip bolts, pull": "NDS 3.10.2, AISC 360 J3",
    "lip bolts, shear": _SIDEWAYS,
    "lip bolts combined": "own, no clause",
    "lip bolts, parked": _SIDEWAYS,
    "lip rail splitting": "EN 1995-1-1 (8.4)" + _KEPT,
    "ceiling beam bending": _BENT,
    "ceiling beam, permanent loads": _BENT,
    "ceiling beam, one mount lost": _BENT,
    "ceiling beam without the wall": _BENT,
    "ceiling beam shear": _SHEARED,
    "ceiling beam torsion": "statics; Fv of the NDS",
    "ceiling beam shear and torsion": "statics; Fv of the NDS",
    "ceiling beam bearing": _BEARS,
    "ceiling beam deflection": _SAGS,
    "ceiling beam splitting": "EN 1995-1-1 (8.4)" + _KEPT,
    "joist bending": _BENT,
    "joist shear": _SHEARED,
    "joist bearing": _BEARS,
    "joists' deflection": _SAGS,
    "spreader's screw": "NDS 12.2, 12.3, 12.4.1, 3.10.4",
    "spreader's screws' room": "NDS 12.5.1",
    "kicker upright": "NDS 3.7, 3.9",
    "kicker plate bearing": _BEARS,
    "floor fixing": _SIDEWAYS,
    "lift beam bending": _BENT,
    "lift beam, one line lost": _BENT,
    "lift beam shear": _SHEARED,
    "lift beam bearing": _BEARS,
    "lift beam deflection": _SAGS,
}
"""Clauses by the checks' names; a check that isn't here has the one that it always has."""

PHRASES: tuple[tuple[str, str], ...] = (
    ("one coach screw with", "one lag screw with"),
    ("; load of short duration", "; load duration factor CD {kmod_solid_short}"),
    ("; cracks by kcr {kcr_solid} as for shear", ""),
    ("; cracks by kcr {kcr_solid}", ""),
    ("self weight alone as a permanent load", "self weight alone, CD {kmod_solid_permanent}"),
    ("; the thread by (8.38) with nef = n^0.9, or", "; W of the threads, or"),
    (
        "; the root of (8.28), so that the use grows like the load",
        "; the root of both squares, never less than by Hankinson's formula",
    ),
    ("; the root of (8.28), which is written for screws", "; the root of both squares"),
    ("; the root of (8.28); thin plate, no rope effect", "; the root of both squares; thin plate"),
    ("; with the rope effect, 8.2.2(2)", ""),
    ("; no rope effect, for the same screw's thread and head are pulled already", ""),
    (
        "; embedment in end grain {end_grain_embedment_factor} times lower, no rope effect",
        "; end grain factor Ceg {end_grain_factor_nds}",
    ),
    (", kc,90 = {kc90_default}", ""),
    (
        " and {lip_bolt_end_mm} mm or more from the rail's end (table 8.4, from memory)",
        " or more from the rail's end (NDS table 12.5.1A, from memory)",
    ),
    (" (km taken as 1)", ""),
    (
        "torsion plus the square of shear (DIN EN 1995-1-1/NA, from memory)",
        "torsion plus the square of shear",
    ),
)
"""What the checks' assumptions say by EN 1995-1-1, and in its place by the NDS."""


def clause_of(name: str, clause: str) -> str:
    """Return the clause that a check is called by."""
    return CLAUSES.get(name, clause)


def assumption_of(text: str) -> str:
    """Return an assumption as it is by the NDS, its gaps still open."""
    for old, new in PHRASES:
        text = text.replace(old, new)
    return text
