"""A yard's price list, as it was mailed or downloaded -> offers, findings, a catalogue."""

from steepwright.pricelist.answers import Answers
from steepwright.pricelist.combine import to_catalog
from steepwright.pricelist.lists_file import lists_text
from steepwright.pricelist.offers import Question, SheetOffer, TimberOffer
from steepwright.pricelist.read import read_price_list
from steepwright.pricelist.reading import PriceListReading

__all__ = [
    "Answers",
    "PriceListReading",
    "Question",
    "SheetOffer",
    "TimberOffer",
    "lists_text",
    "read_price_list",
    "to_catalog",
]
