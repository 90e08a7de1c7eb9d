"""A yard's price list, as it was mailed or downloaded -> offers, findings, a catalogue."""

from steepwright.pricelist.answers import Answers
from steepwright.pricelist.combine import beside, to_catalog
from steepwright.pricelist.offers import Question, SheetOffer, TimberOffer
from steepwright.pricelist.read import read_price_list
from steepwright.pricelist.reading import PriceListReading

__all__ = [
    "Answers",
    "PriceListReading",
    "Question",
    "SheetOffer",
    "TimberOffer",
    "beside",
    "read_price_list",
    "to_catalog",
]
