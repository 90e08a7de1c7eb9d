"""What a text says a product is: a sheet of one of our kinds, timber, hardware, or neither."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from steepwright.pricelist.words import (
    Word,
    entries,
    first,
    fold,
    has,
    hits,
    norm,
    short_numbers,
)

Family = Literal["", "sheet", "timber", "hardware", "charge", "other"]

_OSB = re.compile(
    r"\bosb(?: ?(?:platt\w*|plat\w*|verlegeplatt\w*|plyt\w*|board|type?))* ?/? ?([1-4])\b"
    r"(?! ?(?:mm|cm|x)\b(?! \d))|\btype? (?:osb )?([1-4])\b"
)
_EN_CLASS = re.compile(
    r"\b(c ?(?:14|16|18|20|22|24|27|30|35|40)|gl ?\d\d ?[hc]?|d ?(?:18|24|30|35|40|50))\b"
    r"(?! ?(?:mm|cm|x)\b)"
)
_DIN_CLASS = re.compile(r"\bs ?(7|10|13)(?: ?(?:ts|k))?\b(?! ?(?:mm|cm|x)\b)")
_NORTH_TREES = r"spf|s p f|df l|dfl|df|hf|doug fir|douglas fir|hem fir|syp"
_NORTH = re.compile(
    rf"\b({_NORTH_TREES}|southern (?:yellow )?pine)\b.*?"
    r"(?:# ?|\bno ?|\bnumber ?|\bnr ?)([123])\b|"
    rf"(?:# ?|\bno ?|\bnumber ?)([123])\b.*?\b({_NORTH_TREES})\b"
)
_NORTH_NAMES = {
    "spf": "SPF",
    "s p f": "SPF",
    "df l": "DF-L",
    "dfl": "DF-L",
    "df": "DF-L",
    "hf": "Hem-Fir",
    "doug fir": "DF-L",
    "douglas fir": "DF-L",
    "hem fir": "Hem-Fir",
    "syp": "SP",
}
_METRIC_THREAD = re.compile(r" m ?\d{1,2}(?:x\d+)? ")
"""ISO 261 [M]: M and the diameter name a thread for a nut, which no wood screw has."""
_OUT = {
    "pad": "floor pad: its price goes into hardware.csv of the catalogue, in a row of the kind pad "
    "(--fill-from shipped writes that file)",
    "offcut": "an offcut, of which there is one: what you would take goes into the room file, "
    "under [[yard.offcuts]]",
    "used": "used or second-choice goods, whose strength nobody vouches for",
}
"""Groups of words for goods that a list is not read for, and what becomes of them."""
_LONG_WORD = 7
_FUZZY_GROUPS = ("kind", "tree", "timber", "film", "not_sheet")


@dataclass(frozen=True, slots=True)
class Kind:
    """A product's family and kind; `undecided` names the open question, `reason` why it is out.

    `assumed` is a stated assumption that the reading rests on.
    """

    family: Family = ""
    kind: str = ""
    undecided: str = ""
    reason: str = ""
    assumed: str = ""

    @property
    def is_settled(self) -> bool:
        """Whether nothing more needs to be known from headings."""
        return bool(self.family) and not self.undecided


@dataclass(frozen=True, slots=True)
class Traits:
    """What a text says about strength, surface and grain; empty where it says nothing."""

    strength: str = ""
    strength_note: str = ""
    surface: str = ""
    grain: str = ""
    cladding: bool = False
    groove: bool = False


def kind_of(text: str) -> Kind:
    """Return what a description says the product is."""
    return _kind_of(short_numbers(text))


@lru_cache(maxsize=65536)
def _kind_of(text: str) -> Kind:
    words = norm(text)
    out = next((reason for group, reason in _OUT.items() if has(group, words)), "")
    if out:
        return Kind("other", reason=out)
    if has("hardware", words) and not _is_board_with_nuts(words):
        return Kind("hardware", first("hardware", words))
    osb = has("kind", words, "OSB/3")
    if osb:
        return _osb(words)
    if has("not_sheet", words):
        return Kind("other", reason=f"{first('not_sheet', words)}: no strength values for it")
    ply = has("kind", words)
    film = has("kind", words, "birch film-faced") or (
        has("film", words) and (ply or has("tree", words, "birch"))
    )
    if film:
        return _film(words)
    if ply:
        return _plywood(words)
    if has("timber", words):
        return Kind("timber", "timber")
    return _small_or_other(words)


def goods_in(text: str) -> str:
    """Return the family of goods that a note or heading names, panels of any sort as sheets."""
    return kind_of(text).family or ("sheet" if has("panel_word", norm(text)) else "")


def set_apart(heading: str) -> Kind | None:
    """Return what a heading that begins with offcuts or used goods makes of goods below it.

    One that only says on request where they are to be had makes nothing of them.
    """
    words = norm(heading)
    begins = any(hit.start == 0 for group in ("offcut", "used") for hit in hits(group, words))
    return kind_of(heading) if begins and not has("no_price", words) else None


def _small_or_other(words: str) -> Kind:
    """Return what names neither a sheet nor timber: a screw by its head, a charge, other goods."""
    if has("screw_head", words):
        return Kind("hardware", "bolt" if _METRIC_THREAD.search(words) else "screw")
    if has("charge", words):
        return Kind("charge", first("charge", words))
    if has("other", words):
        return Kind("other", reason=f"{first('other', words)}: not wall material")
    return _by_class_or_tree(words)


def _is_board_with_nuts(words: str) -> bool:
    """Return whether T-nuts are named only as what a sheet comes with."""
    return has("kind", words) and first("hardware", words) == "tnut"


def _osb(words: str) -> Kind:
    found = _OSB.search(words)
    number = (found.group(1) or found.group(2)) if found else ""
    if number == "3":
        return Kind("sheet", "OSB/3")
    if number == "4":
        return Kind("sheet", "OSB/3", assumed="OSB/4 is reckoned with the lower values of OSB/3")
    if number:
        return Kind("other", reason=f"OSB/{number}: only OSB/3 and OSB/4 have strength values here")
    return Kind("sheet", "OSB/3", undecided="osb")


def _trees(words: str) -> set[str]:
    return {hit.value for hit in hits("tree", words)}


def _film(words: str) -> Kind:
    trees = _trees(words)
    if trees <= {"birch"} or trees == set():
        unsaid = "" if trees else "film-faced plywood is taken to be birch throughout"
        return Kind("sheet", "birch film-faced", assumed=unsaid)
    return Kind(
        "other", reason="film-faced plywood with a core other than birch: no strength values"
    )


def _plywood(words: str) -> Kind:
    trees = _trees(words)
    if trees == {"birch"}:
        return Kind("sheet", "birch")
    if trees == {"softwood"}:
        return Kind("sheet", "softwood ply")
    if trees:
        return Kind("other", reason="plywood of another or mixed wood: no strength values for it")
    return Kind("sheet", "birch", undecided="plywood")


def _by_class_or_tree(words: str) -> Kind:
    """Timber by a strength class, or by a tree's name; a tree alone may also be a panel."""
    if _EN_CLASS.search(words) or _NORTH.search(words):
        return Kind("timber", "timber")
    if has("not_timber", words):
        return Kind("timber", "timber")
    trees = _trees(words)
    if trees and has("panel_word", words):
        return Kind("sheet", "", undecided="panel")
    return Kind("timber", "timber", undecided="tree") if trees else Kind()


def traits_of(text: str) -> Traits:
    """Return the strength class, surface and grain that a text states."""
    return _traits_of(short_numbers(text))


@lru_cache(maxsize=65536)
def _traits_of(text: str) -> Traits:
    words = norm(text)
    strength, note = _strength(words)
    surfaces = {hit.value for hit in hits("surface", words)}
    surface = surfaces.pop() if len(surfaces) == 1 else ""
    if len(surfaces) > 1:
        surface = "planed" if "planed" in surfaces and not has("surface", words, "sawn") else ""
    groove = has("groove", words) and not has("straight", words)
    cladding = has("not_timber", words) or (groove and has("groove", words, "groove"))
    return Traits(strength, note, surface, first("grain", words), cladding, groove)


def is_cut_to_size(text: str) -> bool:
    """Return whether a text offers pieces cut to measure rather than a stock sheet."""
    words = norm(short_numbers(text))
    return has("to_size", words) and not has("possible", words)


def is_straight(text: str) -> bool:
    """Return whether a text says that a sheet's edges are straight."""
    return has("straight", norm(short_numbers(text)))


def _strength(words: str) -> tuple[str, str]:
    found = {hit.replace(" ", "").upper() for hit in _EN_CLASS.findall(words)}
    found = {name if not name.startswith("GL") else f"GL{name[2:].lower()}" for name in found}
    if len(found) == 1:
        return found.pop(), ""
    if len(found) > 1:
        lowest = min(found, key=lambda name: (not name.startswith("C"), name))
        return lowest, f"several classes named; the lowest, {lowest}, is taken"
    din = _DIN_CLASS.search(words)
    if din:
        name = {"7": "C16", "10": "C24", "13": "C30"}[din.group(1)]
        return name, f"DIN 4074-1 class S{din.group(1)} of spruce is {name} by EN 1912 [M]"
    north = _NORTH.search(words)
    if north:
        species = _NORTH_NAMES.get(north.group(1) or north.group(4), "SP")
        return f"{species} No.{north.group(2) or north.group(3)}", ""
    return "", ""


def usual_class(text: str) -> tuple[str, str]:
    """Return the class that a trade name stands for though none is stated, and the note on it."""
    if has("kvh", norm(short_numbers(text))):
        return "C24", "KVH is sold as C24 (EN 15497, common practice)"
    return "", ""


@lru_cache(maxsize=16384)
def respelled(text: str) -> tuple[str, str]:
    """Return the text with one long word mended that is one letter off a known one, and the word.

    Both empty when no word is near; strength classes are never mended.
    """
    for token in norm(text).split():
        if len(token) < _LONG_WORD or not token.isalpha():
            continue
        mended = _mended(token)
        if mended:
            return fold(text).replace(token, mended), f"{token} -> {mended}"
    return "", ""


@cache
def _known_by_ends() -> dict[str, tuple[Word, ...]]:
    """Return the long known words by their first three letters, and by their last three."""
    found: dict[str, list[Word]] = defaultdict(list)
    for group in _FUZZY_GROUPS:
        for word in entries(group):
            known = word.needle.strip()
            if len(known) >= _LONG_WORD and known.isalpha():
                found[f"{known[:3]}-"].append(word)
                found[f"-{known[-3:]}"].append(word)
    return {end: tuple(words) for end, words in found.items()}


@lru_cache(maxsize=65536)
def _mended(token: str) -> str:
    """Return the token with the known word that its whole, its head or its tail nearly is.

    A word with one slip still has its first three letters right, or its last three.
    """
    index = _known_by_ends()
    for word in (*index.get(f"{token[:3]}-", ()), *index.get(f"-{token[-3:]}", ())):
        known = word.needle.strip()
        if _one_off(token, known):
            return known
        for size in (len(known) - 1, len(known), len(known) + 1):
            head, tail = token[:size], token[-size:]
            if len(token) > size and not word.needle.endswith(" ") and _one_off(head, known):
                return known + token[size:]
            if len(token) > size and not word.needle.startswith(" ") and _one_off(tail, known):
                return token[:-size] + known
    return ""


def _one_off(a: str, b: str) -> bool:
    """Return whether two words differ by one letter changed, added or left out."""
    if a == b or abs(len(a) - len(b)) > 1:
        return False
    if len(a) > len(b):
        a, b = b, a
    at = next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), len(a))
    return a[at + (len(a) == len(b)) :] == b[at + 1 :]
