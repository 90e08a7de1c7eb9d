"""What a builder must know before spending money, in sentences under a few titles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from steepwright.report.words import count
from steepwright.units import GRAVITY_M_S2, money


@dataclass(frozen=True, slots=True)
class Notes:
    """Sentences under one title."""

    title: str
    lines: tuple[str, ...]


def notes_of(design: dict[str, Any], currency: str) -> tuple[Notes, ...]:
    """Return a design's notes; what its document does not tell is left out."""
    parts = (
        ("Getting in", "way_in", _way_in),
        ("Sawing", "shop", lambda shop: shop_lines(shop, currency)),
        ("Hanging it", "assembly", _assembly),
        ("Levelling", "levelling", lambda level: _levelling(level, design)),
        ("Climbing", "climbing", _climbing),
        ("Holds", "hold_clearance", _holds),
        ("Pads", "pads", lambda pads: pad_lines(pads, currency)),
    )
    return tuple(
        Notes(title, tuple(words(design[key]))) for title, key, words in parts if design.get(key)
    )


def _way_in(way: dict[str, Any]) -> list[str]:
    length, width = way["largest_piece_mm"]
    first = f"The largest board piece is {length} x {width} mm; "
    if way["longest_mm"] is None:
        first += "nothing that is stated about the way in limits its length."
    else:
        first += (
            f"of this width up to {way['longest_mm']} mm gets in; what limits it is "
            f"{way['bottleneck']}."
        )
    return [first, *(_undivided(row) for row in way["undivided"])]


def _undivided(row: dict[str, Any]) -> str:
    split = f"{count(row['columns'], 'column')} and {count(row['rows'], 'row')}"
    piece = f"{row['piece_mm'][0]} x {row['piece_mm'][1]} mm"
    if row["stopped_by"]:
        return f"In {split} a piece would be {piece}: stopped by {row['stopped_by']}."
    return f"In {split} a piece of {piece} would get in; divided it is cheaper or stronger."


def _assembly(order: dict[str, Any]) -> list[str]:
    lines = [
        (
            f"In the order below the heaviest lift overhead is {order['heaviest_force_n']} N "
            f"({_kg(order['heaviest_force_n'])}); the finished board raised at once would be "
            f"{order['whole_board_force_n']} N ({_kg(order['whole_board_force_n'])})."
        )
    ]
    if order["fold_force_n"] is not None:
        lines.append(
            f"Folding it up by hand takes {order['fold_force_n']} N at the lower edge "
            f"({_kg(order['fold_force_n'])}), before any pulleys."
        )
    return [*lines, "Every piece balances at its middle."]


def _kg(force_n: float) -> str:
    return f"{force_n / GRAVITY_M_S2:.0f} kg"


_LEVEL = {
    "slab": "The slab's underside is taken as level over the mounts",
    "frame": "The frame's head beam is level",
}


def _levelling(level: dict[str, Any], design: dict[str, Any]) -> list[str]:
    drops = [row["drop_mm"] for row in level["mounts"]]
    if not any(drops):
        said = _LEVEL.get(design.get("mount_kind", ""), "The beam is level over the mounts")
        return [f"{said}: all hang alike."]
    each = ", ".join(_drop(row) for row in level["mounts"])
    return [
        (
            f"Let the mounts down beyond their own drop, from the left: {each}. "
            f"They can take up {level['take_up_mm']:g} mm."
        )
    ]


def _drop(row: dict[str, Any]) -> str:
    turns = "" if row["turns"] is None else f" ({row['turns']:g} turns)"
    return f"{row['drop_mm']:g} mm{turns}"


def _climbing(climb: dict[str, Any]) -> list[str]:
    return [
        (
            f"About {count(climb['moves'], 'move')} of {climb['move_gain_mm']} mm up the board "
            "(an assumption, to compare walls with)."
        ),
        (
            f"The lowest holds on the board are {climb['start_height_mm']} mm above the floor; the "
            f"wall is {climb['width_spans']:g} times as wide as the climber's span (common "
            "practice, no source)."
        ),
    ]


def _holds(clear: dict[str, Any]) -> list[str]:
    lines = [
        (
            f"Every free position is at least {clear['timber_mm']:g} mm from timber and seams, so "
            f"at least {clear['screw_mm']:g} mm from a screw; a hold is taken to be pulled "
            f"{clear['standoff_mm']:g} mm out from the sheet (an assumption of the checks)."
        ),
        (
            f"A hold that has no bolt needs {clear['screws_without_bolt']} wood screws of "
            f"{clear['hold_screw_mm']:g} mm that reach {clear['hold_screw_grip_mm']:g} mm beyond "
            "its back, or through the sheet; one with fewer is for feet. It is pulled as a bolted "
            "one, and the sheet counts as timber of its density (an assumption)."
        ),
    ]
    if clear["barrel_mm"] > clear["sheet_mm"]:
        lines.append(
            f"Take shorter inserts: one on offer is {clear['barrel_mm']} mm long, and the sheet "
            f"is only {clear['sheet_mm']} mm thick."
        )
    return lines


def pad_lines(pads: dict[str, Any], currency: str) -> list[str]:
    """Return what to lay and buy, where it ends, and how thick it is beside the guidance."""
    own = sum(pad["own"] for pad in pads["laid"])
    bought = ", ".join(f"{line['quantity']} × {line['what']}" for line in pads["buy"])
    number = count(len(pads["laid"]), "pad").capitalize()
    where = "is" if pads.get("on_bill") else "is not"
    cost = f"{bought}, for {money(pads['cost_cents'], currency)}, which {where} in the wall's cost"
    if not bought:
        first = f"{number}, all your own"
    elif own:
        first = f"{number}, {own} of them your own; to buy: {cost}"
    else:
        first = f"{number} to buy: {cost}"
    lines = [f"{first}. Laid in rows, the cheapest way that covers most."]
    lines += [_left_over(pad, pads) for pad in pads.get("left_over", ())]
    if pads["ends"]:
        left, right = (_beside(pads["ends"][f"{side}_mm"], side) for side in ("left", "right"))
        lines.append(
            f"They cover {100 * pads['covered']:.0f} % of the floor that the guidance asks to pad "
            f"and the room has, and end {pads['ends']['front_mm']} mm in front of the lip, {left} "
            f"and {right}."
        )
    if pads["covers_kicker_mm"]:
        lines.append(
            f"They hide the lowest {pads['covers_kicker_mm']} mm of the kicker: no holds there."
        )
    short = pads["asked_mm"] - pads["thickness_mm"]
    lines.append(
        f"They are {pads['thickness_mm']} mm thick for falls from up to "
        f"{pads['fall_height_mm']} mm; the guidance for public walls asks for "
        f"{pads['asked_mm']} mm{f', {short} mm more' if short > 0 else ''}. No source gives a "
        "figure for small walls at home."
    )
    return lines


def _beside(beyond_mm: int, side: str) -> str:
    """Return where pads end at one side; a part of the wall that has none below it is told."""
    if beyond_mm < 0:
        return f"{-beyond_mm} mm short of the wall's {side} edge: nothing lies below that strip"
    return f"{beyond_mm} mm beyond the wall's {side} edge"


def _left_over(pad: dict[str, Any], pads: dict[str, Any]) -> str:
    """Return why pads that the builder has already are not laid."""
    size, laid = pad["thickness_mm"], pads["thickness_mm"]
    start = f"Not laid: {pad['count']} × your own “{pad['name']}”, {size} mm thick. "
    if size == laid:
        return f"{start}No place is left for it where it saves money or covers more."
    start += f"All pads of a floor are equally thick, here {laid} mm, so that no edge is left: "
    if size > laid:
        return f"{start}thinner ones at hand meet the guidance."
    if laid < pads["asked_mm"]:
        return f"{start}thicker ones are at hand."
    return f"{start}it is thinner than the {pads['asked_mm']} mm that the guidance asks for."


def shop_lines(shop: dict[str, Any], currency: str) -> list[str]:
    """Return what is left to be sawn at home, and whether it gets there."""
    if not shop["home_cuts"]:
        return ["The shop's saw makes every cut."]
    them = "it" if shop["home_cuts"] == 1 else "them"
    lines = [
        (
            f"{count(shop['home_cuts'], 'cut')} of the cut plan {_are(shop['home_cuts'])} left for "
            f"home: the shop's saw does not make {them}, or the piece is your own."
        )
    ]
    if shop["charged_cents"]:
        lines.append(
            f"The bill charges for every cut of a bought sheet; those made at home save up to "
            f"{money(shop['charged_cents'], currency)}."
        )
    if shop["largest_home_mm"] is not None:
        length, width = shop["largest_home_mm"]
        lines.append(f"The largest block that leaves the shop uncut is {length} x {width} mm.")
    if not shop["blocks_fit_vehicle"]:
        lines.append("A block that leaves the shop uncut does not fit your vehicle.")
    if not shop["blocks_get_in"]:
        lines.append("A block that leaves the shop uncut does not get in: saw it outside.")
    return lines


def _are(number: int) -> str:
    return "is" if number == 1 else "are"
