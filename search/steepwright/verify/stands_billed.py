"""A design's freestanding frame: its bars sawn again, its bolts counted again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

from steepwright.verify.sawing import bar_faults
from steepwright.verify.stands import (
    Section,
    bolt_packs,
    bolts_needed,
    is_bought,
    spreader_ends,
    stand_pieces,
    stand_stock,
    stuck_pieces,
)

Document = dict[str, Any]
Wrong = Callable[[str, object, object], None]

SAWN = "a frame's plan that can be sawn and yields just its pieces"


class StandWitness:
    """The frame of one design held against what is given; nothing to say of other mounts."""

    def __init__(self, design: Document, given: Document, room: Document) -> None:
        self.design, self.given, self.room = design, given, room
        self.beam = next(b for b in room["beams"] if b["name"] == design["beam"])

    def sawn(self, wrong: Wrong) -> None:
        """Look at the plan of the frame's bars, and whether these get in and have their room."""
        self._between_walls(wrong)
        for length, section in stuck_pieces(self.given, self.room, self.beam):
            wrong("a bar of the frame", f"{length} mm of {section}", "one that gets in")
        kerf, left = self.room["yard"]["kerf_mm"], list(self.design["cut_plan"].get("stand", ()))
        pieces: dict[Section, Counter[int]] = {}
        if is_bought(self.beam):
            pieces = stand_pieces(self.given["factors"], self.beam)
        stock_of = stand_stock(self.given, self.room, self.beam, self.design["delivered"])
        for section, asked in pieces.items():
            stock = {row["sku"]: row for row in stock_of(section)}
            mine = [bar for bar in left if bar["sku"] in stock]
            left = [bar for bar in left if bar["sku"] not in stock]
            for fault in bar_faults(mine, asked, stock, kerf):
                wrong(fault, "", SAWN)
        for bar in left:
            wrong("a bar that no frame is made of", bar["sku"], SAWN)

    def _between_walls(self, wrong: Wrong) -> None:
        if under := self.beam.get("spreader"):
            start, end = spreader_ends(self.given["factors"], under)
            if start < 0 or end > self.room["width_mm"]:
                seen, width = f"{start} to {end}", self.room["width_mm"]
                wrong("ends of the timber under joists", seen, f"within 0 to {width}")

    def bolted(self, billed: dict[str, tuple[int, int]], wrong: Wrong) -> set[str]:
        """Look at the frame's bolts on the bill; return the articles that are known."""
        known: set[str] = set()
        if not is_bought(self.beam):
            return known
        for length, need in bolts_needed(self.given, self.beam).items():
            bought = 0
            for sku, pieces, cents in bolt_packs(self.given, length):
                if sku in billed:
                    known.add(sku)
                    quantity, unit = billed[sku]
                    bought += quantity * pieces
                    if unit != cents:
                        wrong(f"price of {sku}", unit, cents)
            if bought < need:
                wrong(f"frame's bolts of {length} mm on the bill", bought, f"at least {need}")
        return known
