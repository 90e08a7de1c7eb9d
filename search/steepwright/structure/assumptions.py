"""What the structural checks assume, in plain words for the page."""

from __future__ import annotations

from steepwright.structure.tables import Tables

_TEXTS = (
    (
        "Loads: {climbers} of {climber_kg} kg each, weight x {dynamic_factor} (dynamic factor: no"
        " published peak load of indoor bouldering was found), all at the worst place. Square to"
        " the board F sin t or {hold_pull_factor} F, whichever is more; along it the whole F."
    ),
    (
        "Holds, bolts and inserts weigh {hold_mass_kg_m2} kg per m2 of board. Holds are bolted into"
        " T-nuts; how many screws one needs that has no bolt is told with the holds."
    ),
    (
        "Timber and panels by EN 1995-1-1:2004+A1+A2, service class {service_class}"
        " ({service_place}), partial factors {gamma_g} and {gamma_q} on loads; national annexes"
        " aren't considered. The second generation of the standard differs."
    ),
    (
        "Load cases: self weight alone (standing, and parked where the wall folds up); self weight"
        " with the climbers at any height from foot to lip, on any stud, the outer ones too, or"
        " between two; one mount lost, as an accident."
    ),
    (
        "Climbing counts as a load of short duration (kmod {kmod_solid_short} for timber), self"
        " weight alone as permanent ({kmod_solid_permanent}), an accident as instantaneous"
        " ({kmod_solid_instantaneous}); gamma M {gamma_m_solid} for timber, {gamma_m_plywood} for"
        " plywood, {gamma_m_connection} for joints, {gamma_m_accidental} in an accident."
    ),
    (
        "The board is a simple span from its foot to the pivots. Neighbouring studs help through"
        " the sheet unless a seam across the slope cuts it. The sheet, screwed on, also"
        " stiffens each stud unless such a seam cuts it; it isn't counted for strength, for its"
        " screws would be the weak link."
    ),
    (
        "Weights along the slope count in full at every angle, which is cautious, so that a longer,"
        " steeper or wider wall never seems stronger."
    ),
    (
        "Mounts hang in the beam's middle line and one mount, any, carries all climbers, who at an"
        " outer stud lever on its mount, for that sits further in; the board's weight hangs on them"
        " in the worst way, as if they took up unevenly; a mount set back from the lip is levered"
        " as on a board of {lip_reference_board_mm} mm."
    ),
    (
        "The ceiling beam is a simple span, unbraced, whose supports lie evenly about the middle of"
        " the room's width: measure it. What the supports rest on isn't checked."
    ),
    (
        "Deflections: span over {deflection_stud_ratio} (studs), {deflection_rail_ratio} (lip"
        " rail), {deflection_beam_ratio} (ceiling beam), {deflection_sheet_ratio} (sheet, 800 N)."
    ),
    (
        "Sheet screws at the distance each design tells; {frame_screws_per_joint} frame screws at"
        " every end of a stud, of a type assessed for use in end grain."
    ),
)
_NDS = {
    "Timber and panels by EN": (
        "Lumber and fasteners by the NDS, 2018, allowable stress: loads without partial factors,"
        " dry service, no repetitive member factor. Panels, splitting and twisting have no rule"
        " there that could be used: strengths of EN 1995-1-1 over all its factors stand in. What"
        " the building official has adopted comes first."
    ),
    "Climbing counts as a load": (
        "Load duration factor CD {kmod_solid_short} for climbing, as for any live load of a room,"
        " {kmod_solid_permanent} for self weight alone, {kmod_solid_instantaneous} in an accident."
    ),
}
"""Texts of rooms that are checked by the NDS, by how those begin that they stand for."""


def _by_nds(text: str) -> str:
    return next((own for start, own in _NDS.items() if text.startswith(start)), text)


_LIFT = (
    "Lifting: {hoist_lines} lines run from eyes near the board's foot straight up over blocks at"
    " the beam above, or at the ceiling where there is none, and down to one tackle of"
    " {hoist_parts} parts with a brake; slowly, without a jerk. The force in the lines is taken as"
    " that of the level board, which is the largest of the lift."
)

_LINING = (
    "Hidden joists: the ceiling's lining bears nothing. Mounts sit on it with the screws they are"
    " sold with, which reach so much less deep into the joist and bend across the lining."
)

_SLAB = (
    "Concrete slab: mounts hang on anchors in place of their screws, which aren't on the bill; only"
    " mounts with a maker's rating are looked at. The slab itself isn't checked."
)

_FRAME = (
    "Freestanding frame: its timber and bolts are on the bill unless they are yours already, in"
    " bars bought for it alone: rests of the wall's bars are not looked at. It is sized as the room"
    " file tells, with {frame_bolts_per_joint} bolts M{frame_bolt_mm} at each end of a brace and"
    " cheeks bolted on at both ends of a post."
    " The lip's level pull, {hold_pull_factor} of the climbers' load, comes with their weight; the"
    " brace that a side leans on takes all, joined {frame_toe_mm} mm from the foot's end. Across"
    " the room it is {frame_sideways_share} of the load. The head beam is checked as a ceiling"
    " beam. The floor that it stands on isn't checked. Nobody else may pull at it or lean on it."
)

_LEDGER = (
    "Wall ledgers: the beam's and the ledgers' timber is on the bill unless it is yours already, in"
    " bars bought for it alone; the anchors or screws that hold the ledgers are not. Screws in"
    " studs are those that the yard sells for frames of the ledger's thickness. The walls aren't"
    " checked."
)

_TIE = (
    "Ties: every stud of a tied wall has one, from the middle of its length, or where the design"
    " tells, to the second beam, taut without load, neither slack nor tight; take up any slack"
    " before climbing. It pulls and never pushes; it and the beam at mid-span give way one after"
    " the other. What a tie takes off its stud and what the sheet spreads to the neighbours aren't"
    " added: the larger alone counts. Lip, foot and mounts are checked as if it weren't there. Even"
    " with all ties undone the studs must bear the climbers as an accident. To fold the board up"
    " its ties are undone first."
)

_SPREAD = (
    "Joists along the room: a timber across it hangs from every joist by a coach screw with a"
    " washer and spreads the load to them as a beam on springs. It is on the bill unless it is"
    " yours already, in a bar bought for it alone; the coach screws are not."
)


def assumptions(tables: Tables) -> tuple[str, ...]:
    """Return what all checks of one room and catalogue assume."""
    texts = tuple(map(_by_nds, _TEXTS)) if tables.code == "NDS" else _TEXTS
    texts = (*texts, _LIFT) if tables.loads.fold_up else texts
    if (tables.beams.lining_mm > 0.0).any():
        texts = (*texts, _LINING)
    if tables.beams.slab.any():
        texts = (*texts, _SLAB)
    if tables.stands.stands.any():
        texts = (*texts, _FRAME)
    if tables.ledgers.lies.any():
        texts = (*texts, _LEDGER)
    if len(tables.ties.products.ea_n) > 1:
        texts = (*texts, _TIE)
    if tables.spreads.hangs.any():
        spread = _SPREAD.replace("coach screw", "lag screw") if tables.code == "NDS" else _SPREAD
        texts = (*texts, spread)
    return tuple(text.format_map(tables.words) for text in texts)
