"""Whatever is changed in the two files, the checker says so.

Each change is sealed again (its hashes are renewed), so that only the checking itself is left to
catch it; without that the hashes alone catch everything.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from sealing import columns, sealed

from steepwright.verify.checker import verify_documents

Doc = dict[str, Any]
Made = Callable[[int], tuple[Doc, Doc]]
Change = Callable[[Doc, Doc], object]


def given(certificate: Doc) -> Doc:
    return dict(certificate["parts"][0]["given"])


def level(certificate: Doc, size: int) -> Doc:
    """Return the last level of boxes of a size: of the narrowest ranges of widths."""
    levels = certificate["parts"][0]["levels"]
    return next(one for one in reversed(levels) if one["size"] == size)


def drop_a_box(certificate: Doc, _: Doc) -> None:
    last = level(certificate, 1)
    for column in columns(last):
        column.pop()


def drop_a_level(certificate: Doc, _: Doc) -> None:
    certificate["parts"][0]["levels"].pop()


def drop_a_family(certificate: Doc, _: Doc) -> None:
    for column in certificate["parts"][0]["space"]["sheetings"].values():
        column.pop()


def list_a_box_twice(certificate: Doc, _: Doc) -> None:
    last = level(certificate, 1)
    for column in columns(last):
        column.append(column[0])


def cheapest_sheet(certificate: Doc) -> Doc:
    rows = [row for family in given(certificate)["families"] for row in family["stock"]]
    return min((r for r in rows if r["price_cents"]), key=lambda r: int(r["price_cents"]))


def cheapen_a_sheet(certificate: Doc, _: Doc) -> None:
    cheapest_sheet(certificate)["price_cents"] //= 3


def cheapen_all_sheets(certificate: Doc, document: Doc) -> None:
    """Cheapen what is given and what is billed alike: the bounds alone can tell."""
    for family in given(certificate)["families"]:
        for row in family["stock"]:
            row["price_cents"] //= 4


def cheapen_a_mount(certificate: Doc, _: Doc) -> None:
    for mount in given(certificate)["mounts"]:
        mount["price_cents"] = 1


def cheapen_bars(certificate: Doc, _: Doc) -> None:
    for section in given(certificate)["sections"]:
        for bar in section["stock"]:
            bar["price_cents"] //= 3


def first_cut(document: Doc) -> Doc:
    return dict(document["designs"][0]["cut_plan"]["sheets"][0])


def swap_a_cut(_: Doc, document: Doc) -> None:
    cuts = first_cut(document)["cuts"]
    cuts[0], cuts[-1] = cuts[-1], cuts[0]


def turn_a_cut(_: Doc, document: Doc) -> None:
    cut = first_cut(document)["cuts"][0]
    cut["axis"] = "y" if cut["axis"] == "x" else "x"


def shift_a_part(_: Doc, document: Doc) -> None:
    first_cut(document)["parts"][0]["x_mm"] += 1


def drop_a_part(_: Doc, document: Doc) -> None:
    first_cut(document)["parts"].pop()


def shorten_a_stud(_: Doc, document: Doc) -> None:
    document["designs"][0]["cut_plan"]["timber"][0]["pieces_mm"][0] -= 1


def weaken_the_timber(certificate: Doc, _: Doc) -> None:
    """A weaker class rules out more; the designs themselves then fail."""
    for timber in given(certificate)["timber_classes"].values():
        timber["fm_k_mpa"] /= 2


def weaken_the_sheet(certificate: Doc, _: Doc) -> None:
    for panel in given(certificate)["panels"].values():
        panel["fm_along_mpa"] /= 2
        panel["fm_across_mpa"] /= 2


def loosen_a_factor(certificate: Doc, _: Doc) -> None:
    given(certificate)["factors"]["gamma_q"] *= 1.2


def loosen_the_angle(_: Doc, document: Doc) -> None:
    document["room"]["wall"]["angle_deg"][0] -= 5


def lower_a_beam(_: Doc, document: Doc) -> None:
    beam = document["room"]["beams"][0]
    beam["underside_mm"] = [z - 60 for z in beam["underside_mm"]]


def tighten_the_fall_space(_: Doc, document: Doc) -> None:
    document["room"]["wall"]["min_fall_space_mm"] += 2500


def raise_an_angle(certificate: Doc, document: Doc) -> None:
    design = document["designs"][-1]
    for row in [*certificate["steps"], *(d["cheapest"] or {} for d in certificate["degrees"])]:
        if row.get("id") == design["id"]:
            row["angle_deg"] = round(design["angle_deg"] + 0.4, 3)
    design["angle_deg"] = round(design["angle_deg"] + 0.4, 3)


def raise_a_bound_of_sheets(certificate: Doc, _: Doc) -> None:
    facts = [f for one in certificate["parts"][0]["levels"] for f in one["sheets"]]
    facts[0][4] += 1


def raise_a_bound_of_bars(certificate: Doc, _: Doc) -> None:
    facts = [f for one in certificate["parts"][0]["levels"] for f in one["bars"]]
    fact = next(f for f in facts if f[6] < 10**11)
    fact[6] += 5000


def raise_a_worth(certificate: Doc, _: Doc) -> None:
    facts = [f for one in certificate["parts"][0]["levels"] for f in one["bars"]]
    fact = next(f for f in facts if f[7])
    fact[7] = [worth * 2 for worth in fact[7]]


def raise_a_margin(certificate: Doc, _: Doc) -> None:
    for one in certificate["parts"][0]["levels"]:
        for values in one["least"].values():
            for n, value in enumerate(values):
                if value is not None:
                    values[n] = value * 1.5 + 1
                    return


def tamper_with_a_count(certificate: Doc, _: Doc) -> None:
    level(certificate, 64)["closed"]["cost"][0] += 1


def tamper_with_what_reaches_a_box(certificate: Doc, _: Doc) -> None:
    level(certificate, 32)["families"][0] -= 1


def tamper_with_the_space(certificate: Doc, _: Doc) -> None:
    certificate["parts"][0]["space"]["designs"] *= 2
    certificate["designs_in_space"] *= 2


def leave_out_a_facing(certificate: Doc, _: Doc) -> None:
    certificate["parts"][0]["space"]["places"].pop()


def leave_out_boards(certificate: Doc, _: Doc) -> None:
    certificate["parts"][0]["space"]["boards_mm"][1] -= 200


def leave_out_a_mount(certificate: Doc, _: Doc) -> None:
    given(certificate)["mounts"].pop()


def leave_out_sides(certificate: Doc, _: Doc) -> None:
    for family in given(certificate)["families"]:
        family["split_sides_mm"].clear()


def claim_less(certificate: Doc, _: Doc) -> None:
    step = next(d["cheapest"] for d in certificate["degrees"] if d["cheapest"])
    step["cost_cents"] -= 100


def cheapen_a_bill(certificate: Doc, document: Doc) -> None:
    """A design that costs less than it does makes a lower stair, which the bounds then reach."""
    design = document["designs"][0]
    line = design["bill"][0]
    line["unit_cents"] -= 1
    line["amount_cents"] = line["quantity"] * line["unit_cents"]
    before, design["cost_cents"] = (
        design["cost_cents"],
        sum(x["amount_cents"] for x in design["bill"]),
    )
    for row in [*certificate["steps"], *(d["cheapest"] or {} for d in certificate["degrees"])]:
        if row.get("cost_cents") == before:
            row["cost_cents"] = design["cost_cents"]


def hide_the_cheapest_design(certificate: Doc, document: Doc) -> None:
    """Without its cheapest designs the stair is higher than what can be shown."""
    gone = document["designs"].pop(0)["id"]
    for one in certificate["degrees"]:
        if one["cheapest"] and one["cheapest"]["id"] == gone:
            steep = [d for d in document["designs"] if d["angle_deg"] >= one["degree"]]
            best = min(steep, key=lambda d: int(d["cost_cents"]), default=None)
            names = ("angle_deg", "cost_cents", "id")
            one["cheapest"] = best and {name: best[name] for name in names}
    certificate["steps"] = [s for s in certificate["steps"] if s["id"] != gone]


def hang_a_mount_at_its_stud(_: Doc, document: Doc) -> None:
    """At the middle of the outer stud its bolts would be too near to the lip rail's end."""
    design = document["designs"][0]
    design["mount_centres_mm"][0] = design["stud_centres_mm"][0]


def overuse_a_check(_: Doc, document: Doc) -> None:
    document["designs"][0]["checks"][0]["use"] = 1.2


def understate_a_check(_: Doc, document: Doc) -> None:
    for check in document["designs"][0]["checks"]:
        check["use"] *= 0.5


CHANGES: list[Change] = [
    drop_a_box,
    drop_a_level,
    drop_a_family,
    list_a_box_twice,
    cheapen_a_sheet,
    cheapen_all_sheets,
    cheapen_a_mount,
    cheapen_bars,
    swap_a_cut,
    turn_a_cut,
    shift_a_part,
    drop_a_part,
    shorten_a_stud,
    weaken_the_timber,
    weaken_the_sheet,
    loosen_a_factor,
    loosen_the_angle,
    lower_a_beam,
    tighten_the_fall_space,
    raise_an_angle,
    raise_a_bound_of_sheets,
    raise_a_bound_of_bars,
    raise_a_worth,
    raise_a_margin,
    tamper_with_a_count,
    tamper_with_what_reaches_a_box,
    tamper_with_the_space,
    leave_out_a_facing,
    leave_out_boards,
    leave_out_a_mount,
    leave_out_sides,
    claim_less,
    cheapen_a_bill,
    hide_the_cheapest_design,
    hang_a_mount_at_its_stud,
    overuse_a_check,
    understate_a_check,
]


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_is_caught(certified: Made, change: Change) -> None:
    certificate, document = certified(13)
    assert sealed(certificate, document).holds, "before the change"
    change(certificate, document)
    verdict = sealed(certificate, document)
    assert not verdict.holds
    damaged = {finding.code for finding in verdict.findings} == {"certificate-damaged"}
    assert not damaged, [finding.text() for finding in verdict.findings]
    for finding in verdict.findings:
        assert finding.seen or finding.expected, finding.text()


@pytest.mark.parametrize("part", ["room", "designs", "given"])
def test_the_hashes_catch_what_changes_nothing(certified: Made, part: str) -> None:
    certificate, document = certified(1)
    if part == "given":
        certificate["parts"][0]["given"]["mounts"][0]["name"] += " "
    else:
        (document["room"] if part == "room" else document["designs"][0])["note"] = "mine"
    codes = [f.code for f in verify_documents(certificate, document).findings]
    assert "certificate-hash" in codes


def test_an_interrupted_search_certifies_nothing(certified: Made) -> None:
    certificate, document = certified(1)
    document["complete"] = False
    codes = [f.code for f in verify_documents(certificate, document).findings]
    assert codes == ["certificate-incomplete"]


def frame_bar_shorter(_: Doc, document: Doc) -> None:
    document["designs"][0]["cut_plan"]["stand"][0]["pieces_mm"][0] -= 1


def frame_bar_left_out(_: Doc, document: Doc) -> None:
    design = document["designs"][0]
    bar = design["cut_plan"]["stand"].pop()
    line = next(line for line in design["bill"] if line["sku"] == bar["sku"])
    line["quantity"] -= 1
    line["amount_cents"] -= line["unit_cents"]
    design["cost_cents"] -= line["unit_cents"]


def frame_bolts_left_out(certificate: Doc, document: Doc) -> None:
    skus = {sku for _, sku, *_ in given(certificate)["stand_bolts"]}
    for design in document["designs"]:
        bill = [line for line in design["bill"] if line["sku"] in skus]
        design["bill"] = [line for line in design["bill"] if line not in bill]
        design["cost_cents"] -= sum(line["amount_cents"] for line in bill)


def frame_timber_cheaper(certificate: Doc, _: Doc) -> None:
    for section in given(certificate)["sections"]:
        if (section["width_mm"], section["depth_mm"]) == (100, 200):
            for row in section["stock"]:
                row["price_cents"] = 100


def frame_there_already(_: Doc, document: Doc) -> None:
    for beam in document["room"]["beams"]:
        beam["stand"]["owned"] = True


@pytest.mark.parametrize(
    "change",
    [
        frame_bar_shorter,
        frame_bar_left_out,
        frame_bolts_left_out,
        frame_timber_cheaper,
        frame_there_already,
    ],
    ids=lambda change: change.__name__,
)
def test_a_frame_that_does_not_add_up_is_refused(certified: Made, change: Change) -> None:
    certificate, document = certified(102)
    assert sealed(certificate, document).findings == []
    change(certificate, document)
    assert sealed(certificate, document).findings


def test_a_frame_whose_feet_do_not_get_in_is_refused(certified: Made) -> None:
    """Feet of twice 1200 mm; a piece as long as the one known to pass gets in, no longer one."""
    certificate, document = certified(102)
    document["room"]["access"]["max_piece_mm"] = [2400, 1300]
    assert not [f for f in sealed(certificate, document).findings if "of the frame" in f.text()]
    document["room"]["access"]["max_piece_mm"] = [2399, 1300]
    told = [f.text() for f in sealed(certificate, document).findings if "of the frame" in f.text()]
    assert any("2400 mm of (80, 120)" in text for text in told)
