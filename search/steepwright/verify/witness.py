"""The designs themselves: each sawn again, priced again, hung again and checked again."""

from __future__ import annotations

from collections import Counter
from typing import Any

import numpy as np
import numpy.typing as npt

from steepwright.verify.angles import (
    Grid,
    Pivot,
    Posed,
    angles_rad,
    least_width_mm,
    levels_out,
    lowered,
    pivot_of,
)
from steepwright.verify.climbing import climbs, drawn_ends
from steepwright.verify.divisions import blocks_mm, largest_bay_mm
from steepwright.verify.doubtful import Hangs, fits_in_doubt, flattest_rad
from steepwright.verify.fitting import fitting_mdeg
from steepwright.verify.hung import HungWitness
from steepwright.verify.packs import Sizes, needed_parts
from steepwright.verify.pads import Pads, on_bill
from steepwright.verify.rigged import rigged_uses
from steepwright.verify.sawing import bar_faults, sheet_faults
from steepwright.verify.stands_billed import StandWitness
from steepwright.verify.strength import CHECKS, Corners, Loads, figures, stud_bending_undone
from steepwright.verify.ties import UNDONE
from steepwright.verify.verdict import Verdict
from steepwright.verify.yards import delivery_cents

Document = dict[str, Any]

SAWN = "a plan that can be sawn and yields just this wall's pieces"

LIKE = 2e-3
"""The stated use of a check may differ from the checker's own by this share."""


class Witness:
    """One design held against what is given."""

    def __init__(self, design: Document, part: Document, room: Document, verdict: Verdict) -> None:
        self.design, self.given, self.room, self.verdict = design, part["given"], room, verdict
        self.factors = self.given["factors"]
        self.name = design["id"]
        self.mount = self._named(self.given["mounts"], "name", design["mount"])
        self.section = self._index(
            [
                f"{s['width_mm']} x {s['depth_mm']} {s['strength_class']} {s['surface']}".strip()
                for s in self.given["sections"]
            ],
            design["stud"],
        )
        labels = [f"{f['kind']} {f['thickness_mm']} mm" for f in self.given["families"]]
        self.family = self._index(labels, design["sheet"])
        kicker = design["kicker_sheet"]
        self.kicker_family = self._index(labels, kicker) if kicker else self.family
        made = self.family, self.kicker_family, self.section
        self._hung = HungWitness(design, self.given, room, self.mount, made)

    @staticmethod
    def _index(names: list[str], name: str) -> int:
        if name not in names:
            message = f"{name!r} is not on offer"
            raise ValueError(message)
        return names.index(name)

    @staticmethod
    def _named(rows: list[Document], key: str, name: str) -> Document:
        found = [row for row in rows if row[key] == name]
        if not found:
            message = f"{name!r} is not on offer"
            raise ValueError(message)
        return found[0]

    def wrong(self, message: str, seen: object = "", expected: object = "") -> None:
        """Note something wrong with this design."""
        self.verdict.wrong("certificate-design", f"{self.name}: {message}", seen, expected)

    def check(self) -> None:
        """Look at everything the claim needs of the design."""
        self._hangs()
        self._is_divided()
        self._is_sawn()
        self._is_billed()
        self._is_strong()

    def _pivot(self) -> Pivot:
        beam = self._named(self.room["beams"], "name", self.design["beam"])
        thickness = self.given["families"][self.family]["thickness_mm"]
        return pivot_of(beam, self.mount, thickness)

    def _grid(self) -> Grid:
        d = self.design
        return Grid(np.array([d["board_mm"]]), np.array([d["kicker_mm"]]), d["width_mm"])

    def _steepest_rad(self) -> float:
        """Return the angle [rad] to check the strength at: as told, or as the tolerance leaves."""
        if not self.room["wall"].get("tolerance_mm", 0):
            return float(np.radians(self.design["angle_deg"]))
        low = lowered(self._pivot(), self.room)
        return float(angles_rad(self._grid(), low)[0, 0])

    def _hangs(self) -> None:
        d, room = self.design, self.room
        pivot, one = self._pivot(), self._grid()
        mdeg = int(fitting_mdeg(room, self.given, d["facing"], pivot, one)[0, 0])
        beam = self._named(room["beams"], "name", d["beam"])
        level = levels_out(room, beam, self.mount, self.factors, d["width_mm"])
        if mdeg < 0 or not level or not self._climbs(angles_rad(one, pivot)[0]):
            self.wrong("the wall does not fit the room", expected="one that fits")
        elif round(d["angle_deg"] * 1000) > mdeg:
            self.wrong("angle", d["angle_deg"], f"at most {mdeg / 1000}")
        for fault in self._hung.faults(pivot, one):
            self.wrong(fault, expected="one that is clear of all that is in the way")
        if room["wall"].get("tolerance_mm", 0) and not self._fits_in_doubt(beam, pivot, one):
            self.wrong("the wall may not fit the room", expected="one that does, measures off")
        wall = room["wall"]
        for name, least, most in (
            ("width_mm", least_width_mm(room), wall["width_mm"][1]),
            ("kicker_mm", *wall["kicker_mm"]),
        ):
            if not least <= d[name] <= most:
                self.wrong(name, d[name], f"{least} to {most}")

    def _fits_in_doubt(self, beam: Document, pivot: Pivot, one: Grid) -> bool:
        """Tell whether it fits with its frame and lift however the room's measures turn out."""
        d, room = self.design, self.room
        board, kicker = one.boards_mm.astype(float), one.kickers_mm.astype(float)
        posed = Posed(angles_rad(one, pivot)[0], board, kicker)
        hangs = Hangs(beam, self.mount, pivot, d["facing"], d["width_mm"])
        deep = self.given["families"][self.family]["thickness_mm"]
        deep = np.array([float(deep + self.given["sections"][self.section]["depth_mm"])])
        fits = bool(fits_in_doubt(room, self.factors, hangs, posed, deep)[0])
        return fits and self._climbs(flattest_rad(posed, pivot, room["wall"]["tolerance_mm"]))

    def _climbs(self, angle_rad: npt.NDArray[np.float64]) -> bool:
        """Tell whether its own rows of holds lie as is asked for."""
        d, room = self.design, self.room
        board, kicker = (np.array([float(d[name])]) for name in ("board_mm", "kicker_mm"))
        rows, stud = tuple(d["row_lengths_mm"]), self.given["sections"][self.section]["width_mm"]
        low, high = drawn_ends(room, self.factors, rows, d["board_mm"], stud)
        posed, ends = Posed(angle_rad, board, kicker), (np.array([low]), np.array([high]))
        return bool(climbs(room, self.factors, posed, ends)[0])

    def _is_divided(self) -> None:
        d, least = self.design, int(self.factors["layout_min_piece_mm"])
        for name, count, total in (
            ("column_widths_mm", d["columns"], d["width_mm"]),
            ("row_lengths_mm", d["rows"], d["board_mm"]),
        ):
            sizes = d[name]
            small = count > 1 and min(sizes) < least
            if len(sizes) != count or sum(sizes) != total or small:
                self.wrong(name, sizes, f"{count} of at least {least} that make {total}")
        if (d["stud_count"] - 1) % d["columns"]:
            self.wrong("studs", d["stud_count"], "as many bays in each column")

    @property
    def _bays(self) -> int:
        return int((self.design["stud_count"] - 1) // self.design["columns"])

    def _is_sawn(self) -> None:
        d, families = self.design, self.given["families"]
        board_grain = "width" if d["grain"] == "across" else "any"
        strip_grain = "length" if d["grain"] == "across" else "any"
        board = [
            (length, width, board_grain)
            for length in d["row_lengths_mm"]
            for width in d["column_widths_mm"]
        ]
        strips = [(width, d["kicker_mm"], strip_grain) for width in d["column_widths_mm"]]
        strips = strips if d["kicker_mm"] else []
        kerf = self.room["yard"]["kerf_mm"]
        sheets = d["cut_plan"]["sheets"]
        groups = [(self.family, board + strips)]
        if self.kicker_family != self.family:
            groups = [(self.family, board), (self.kicker_family, strips)]
        left = list(sheets)
        for family, parts in groups:
            stock = {row["sku"]: row for row in families[family]["stock"]}
            mine = [s for s in left if s["sku"] in stock]
            left = [s for s in left if s["sku"] not in stock]
            for fault in sheet_faults(mine, parts, stock, kerf):
                self.wrong(fault, expected=SAWN)
        for sheet in left:
            self.wrong("a sheet that is not on offer", sheet["sku"], "one that is")
        stock = {row["sku"]: row for row in self.given["sections"][self.section]["stock"]}
        for fault in bar_faults(d["cut_plan"]["timber"], self._bars(), stock, kerf):
            self.wrong(fault, expected=SAWN)
        StandWitness(self.design, self.given, self.room).sawn(self.wrong)
        vehicle = self.room["yard"]["vehicle_max_mm"]
        if vehicle is not None and not d["delivered"]:
            bars = [*d["cut_plan"]["timber"], *d["cut_plan"].get("stand", ())]
            longest = max(bar["stock_mm"] for bar in bars)
            if longest > max(vehicle):
                self.wrong("a bar longer than the vehicle", longest, f"at most {max(vehicle)}")

    def _bars(self) -> Counter[int]:
        d, narrow = self.design, self.given["sections"][self.section]["width_mm"]
        bars: Counter[int] = Counter()
        bars[d["board_mm"] - 2 * narrow] += d["stud_count"]
        bars[d["width_mm"]] += 4 if d["kicker_mm"] else 2
        for block in blocks_mm(tuple(d["column_widths_mm"]), self._bays, narrow):
            bars[block] += d["rows"] - 1
        if d["kicker_mm"]:
            bars[d["kicker_mm"] - 2 * narrow] += d["stud_count"]
        return +bars

    def _is_billed(self) -> None:
        d, bill = self.design, self.design["bill"]
        for line in bill:
            if line["amount_cents"] != line["quantity"] * line["unit_cents"]:
                self.wrong(f"bill line {line['sku']}", line["amount_cents"], "quantity x price")
        total = sum(line["amount_cents"] for line in bill)
        if total != d["cost_cents"]:
            self.wrong("cost", d["cost_cents"], f"the bill's sum, {total}")
        expected = self._expected_lines()
        billed = {line["sku"]: (line["quantity"], line["unit_cents"]) for line in bill}
        for sku, pair in expected.items():
            if billed.get(sku) != pair:
                self.wrong(f"bill of {sku} (quantity, price)", billed.get(sku), pair)
        self._small_parts({s: q for s, q in billed.items() if s not in expected})

    def _expected_lines(self) -> dict[str, tuple[int, int]]:
        d, yard = self.design, self.room["yard"]
        families = (self.given["families"][i] for i in {self.family, self.kicker_family})
        sheets = {row["sku"]: row for family in families for row in family["stock"]}
        bars = {row["sku"]: row for s in self.given["sections"] for row in s["stock"]}
        counts = Counter(s["sku"] for s in d["cut_plan"]["sheets"])
        counts += Counter(b["sku"] for b in d["cut_plan"]["timber"])
        counts += Counter(b["sku"] for b in d["cut_plan"].get("stand", ()))
        lines = {
            sku: (n, (sheets.get(sku) or bars.get(sku) or {"price_cents": -1})["price_cents"])
            for sku, n in counts.items()
        }
        lines[self.mount["sku"]] = d["mount_count"], self.mount["price_cents"]
        if "tie_back" in d:
            tie = self._named(self.given["ties"]["sets"], "sku", d["tie_back"]["sku"])
            lines[tie["sku"]] = -(-d["stud_count"] // tie["pieces"]), tie["price_cents"]
        cuts = sum(
            max(0, len(s["cuts"]) - sheets[s["sku"]].get("free_cuts", 0))
            for s in d["cut_plan"]["sheets"]
            if sheets.get(s["sku"], {"cut_cents": 0})["cut_cents"]
        )
        if cuts and yard["cut_price_cents"]:
            lines["cut"] = cuts, yard["cut_price_cents"]
        return lines | self._padded()

    def _padded(self) -> dict[str, tuple[int, int]]:
        """Return the pads' lines as billed, if they cost what the checker's own layout does."""
        if not on_bill(self.room):
            return {}
        price = {pad["sku"]: pad["price_cents"] for pad in self.given["pads"]}
        lines = {
            line["sku"]: (line["quantity"], price[line["sku"]])
            for line in self.design["bill"]
            if line["sku"] in price
        }
        paid = sum(quantity * cents for quantity, cents in lines.values())
        laid = Pads(self.room, self.given)
        there = np.zeros((1, 1), dtype=np.int64)
        due = int(laid.cents(self.design["facing"], self._pivot(), self._grid(), there)[0, 0])
        if paid != due:
            self.wrong("cost of pads", paid, due)
        return lines

    def _small_parts(self, billed: dict[str, tuple[int, int]]) -> None:
        """Compare the other lines with what is needed of each article."""
        d, given = self.design, self.given
        ways = {s: q for s, q in billed.items() if s.split(" ")[0] in ("trip", "delivery")}
        paid = sum(quantity * unit for quantity, unit in ways.values())
        due = sum(cents for _, cents in given["trips"])
        due += d["delivered"] * delivery_cents(given, self.room["yard"])
        if paid != due:
            self.wrong("trips and deliveries", paid, due)
        one = np.array([1])
        sizes = Sizes(
            one * d["stud_count"],
            one * d["columns"],
            one * d["rows"],
            one * d["board_mm"],
            one * d["kicker_mm"],
            d["width_mm"],
            d["mount_count"],
            d["screw_mm"],
        )
        offers: dict[str, list[list[Any]]] = {
            name: [pack for packs in types or [] for pack in packs]
            for name, types in given["articles"].items()
        }
        offers["sheet screw"] = given["families"][self.family]["screw_packs"] or []
        bolts = given["sections"][self.section]["bolt_packs"]
        offers["lip bolt"] = bolts or []
        offers["frame screw"] = given["sections"][self.section]["screw_packs"] or []
        known = set(ways) | StandWitness(d, given, self.room).bolted(billed, self.wrong)
        for article, need in needed_parts(self.factors, self.room["wall"], sizes).items():
            bought = 0
            for sku, pieces, cents in offers[article]:
                if sku in billed:
                    known.add(sku)
                    quantity, unit = billed[sku]
                    bought += quantity * pieces
                    if unit != cents:
                        self.wrong(f"price of {sku}", unit, cents)
            if bought < int(need[0]) and not (article == "lip bolt" and bolts is None):
                self.wrong(f"pieces of '{article}' on the bill", bought, f"at least {need[0]}")
        for sku in sorted(set(billed) - known):
            self.wrong("a bill line that nothing asks for", sku, "no such line")

    def _is_strong(self) -> None:
        d = self.design
        stated = {check["name"]: check["use"] for check in d["checks"]}
        for name, use in stated.items():
            if not use <= 1:
                self.wrong(f"check '{name}'", use, "at most 1")
        for name, own in self._own_uses().items():
            said = stated.get(name)
            if said is None or abs(said - own) > LIKE * max(own, 0.01):
                self.wrong(f"use of check '{name}'", said, f"{own:.4g}")

    def _own_uses(self) -> dict[str, float]:
        d = self.design
        narrow = self.given["sections"][self.section]["width_mm"]
        bay = largest_bay_mm(tuple(d["column_widths_mm"]), self._bays, narrow)
        wall = Corners(
            family=np.array([self.family]),
            section=np.array([self.section]),
            across=np.array([d["grain"] == "across"]),
            columns=np.array([d["columns"]]),
            rows=np.array([d["rows"]]),
            studs=np.array([d["stud_count"]]),
            bay_mm=np.array([bay]),
            board_mm=np.array([float(d["board_mm"])]),
            angle_rad=np.array([self._steepest_rad()]),
            screw_mm=np.array([float(d["screw_mm"])]),
        )
        loads = Loads(figures(self.given, self.room["climber"], self.room["code"]), wall)
        own = {name: float(check(loads)[0]) for name, check in CHECKS.items()}
        own |= self._hung.uses(loads)
        own |= rigged_uses(d, self.given, self.room, self.mount, loads)
        if "tie_back" in d:
            own[UNDONE] = float(stud_bending_undone(loads)[0])
            own |= self._hung.tied(loads)
        return own
