"""Questions: which are open after a reading, and in what words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from steepwright.pricelist.cells import column_name
from steepwright.pricelist.context import ListContext
from steepwright.pricelist.offers import Question
from steepwright.pricelist.pricing import Quote, Quotes
from steepwright.units import money, tax_name

_TEXTS = {
    "basis": (
        "What are the prices for: a piece, a metre, a square or cubic metre, a pack?",
        "--basis m3 (or piece, m, m2, pack, 100)",
        ("piece", "m", "m2", "m3", "pack", "100"),
    ),
    "strength": (
        "What strength class has the timber whose class is unsaid or has no values here?",
        "--strength C24 (or none; GL24h=C24 for a class without values)",
        ("C16", "C24", "none"),
    ),
    "osb": ("Of what class is the OSB?", "--osb 3 (or none)", ("3", "none")),
    "plywood": (
        "Of what wood is the plywood that does not say it?",
        "--plywood birch (or softwood, none)",
        ("birch", "softwood", "none"),
    ),
    "tongue_groove": (
        "How much is sawn off each edge of tongue-and-groove sheets to make it straight?",
        "--tongue-groove 15 (in mm; or none to leave them out)",
        (),
    ),
    "nominal": (
        "By which country's table are nominal sizes to be turned into actual ones?",
        "--nominal us (or uk, none)",
        ("us", "uk", "none"),
    ),
    "size_unit": (
        "In what unit are the sizes that can be read in two?",
        "--size-unit cm (or mm, in)",
        ("mm", "cm", "in"),
    ),
    "date_sizes": (
        "A spreadsheet made dates of sizes; was 4 March the size 3/4 or 4/3?",
        "--date-sizes month/day (3/4) or --date-sizes day/month (4/3)",
        ("month/day", "day/month"),
    ),
    "lengths": (
        "In what lengths is the timber sold whose length the list does not say?",
        "--lengths 3,4,5 (in m)",
        (),
    ),
    "length_step": (
        "In what steps are the lengths sold that are given as a range?",
        "--length-step 0.3 (in m)",
        (),
    ),
    "pack_pieces": (
        "How many pieces are in a pack, where the list does not say it?",
        "--pack-pieces 10",
        (),
    ),
    "min_quantity": (
        "Would you buy the least quantity that these rows ask for?",
        "--min-quantity 10",
        (),
    ),
}
_IN_FEET = {
    "lengths": "--lengths 8,10,12 (in ft)",
    "length_step": "--length-step 2 (in ft)",
}
"""How these are answered for an imperial list."""


def open_questions(
    ctx: ListContext, has_sheets: bool, has_timber: bool, hint: str
) -> tuple[Question, ...]:
    """Return the questions that stay open; those that leave a family empty block the work.

    `hint` says what the prices would usually be for, where that is asked.
    """
    found = list(ctx.asked.values())
    for key, rows in ctx.unsettled.items():
        text, flag, choices = _TEXTS[key]
        empty = (
            not (has_sheets and has_timber)
            if key in ("basis", "pack_pieces", "date_sizes", "size_unit")
            else (not has_sheets if key in ("osb", "plywood", "tongue_groove") else not has_timber)
        )
        text = text + hint if key == "basis" else text
        flag = _IN_FEET.get(key, flag) if ctx.imperial else flag
        found.append(Question(key, text, flag, choices, tuple(dict.fromkeys(rows)), empty))
    return tuple(sorted(found, key=lambda one: (not one.blocks, one.key)))


def ask_vat(ctx: ListContext, quote: Quote, currency: str) -> None:
    """Ask whether prices hold VAT, or at what rate, with an example of both."""
    cents = int(quote.printed * 100)
    name = tax_name(currency)
    rate = 20 if name == "VAT" else 7
    none = f"--vat 0 --prices-exclude-vat to leave {name} out of every price"
    if quote.has_vat is None:
        dearer = cents * (100 + rate) // 100
        text = (
            f"Do the prices hold {name}? The list does not say; {money(cents, currency)} would be "
            f"{money(dearer, currency)} if {rate} % came on top."
        )
        flag = f"--prices-include-vat, or --vat {rate} --prices-exclude-vat, or {none}"
        ctx.ask(Question("prices", text, flag, ("include-vat", "exclude-vat")))
    elif quote.has_vat is False and quote.vat_rate is None:
        text = f"The prices are without {name}; at what rate does it come on top?"
        ctx.ask(Question("vat", text, f"--vat {rate}, or {none}"))


def ask_price_column(quotes: Sequence[Quotes], ctx: ListContext) -> None:
    """Ask which price counts when two columns say the same of themselves but differ."""
    if ctx.answers.price_column:
        return
    pairs: Counter[tuple[int, str, int, str]] = Counter()
    for found in quotes:
        if len(found.usable) < 2:
            continue
        one, two = found.usable[0], found.usable[1]
        alike = one.basis == two.basis and one.has_vat == two.has_vat
        if alike and one.printed != two.printed and one.column.currency == two.column.currency:
            first, second = sorted((one.column, two.column), key=lambda c: c.index)
            pairs[first.index, first.title, second.index, second.title] += 1
    if pairs:
        (a, a_title, b, b_title), _ = pairs.most_common(1)[0]
        names = (f"{column_name(a)} ({a_title})", f"{column_name(b)} ({b_title})")
        ctx.ask(
            Question(
                "price_column",
                f"Which column holds your price: {names[0]} or {names[1]}?",
                f"--price-column {column_name(a)} (or {column_name(b)})",
                (column_name(a), column_name(b)),
            )
        )
