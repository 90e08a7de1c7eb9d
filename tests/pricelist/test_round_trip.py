"""A random catalogue, rendered in a random language, number style and layout, reads back equal."""

from dataclasses import dataclass
from decimal import Decimal

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from steepwright.catalog import read_catalog, read_materials, write_catalog
from steepwright.pricelist import read_price_list, to_catalog

LANGUAGES = {
    "de": {
        "code": "Art.-Nr.",
        "name": "Bezeichnung",
        "thickness": "Stärke",
        "length": "Länge",
        "width": "Breite",
        "depth": "Höhe",
        "price": "Preis brutto",
        "unit": "Einheit",
        "piece": "Stk",
        "metre": "lfm",
        "square": "m²",
        "film": "Siebdruckplatte Birke",
        "birch": "Birkensperrholz",
        "soft": "Fichtensperrholz",
        "osb": "OSB/3 Platte",
        "bar": "Kantholz Fichte",
        "planed": "gehobelt",
        "sawn": "sägerau",
        "total": "Summe",
        "currency": "€",
    },
    "fr": {
        "code": "Réf.",
        "name": "Désignation",
        "thickness": "Épaisseur",
        "length": "Longueur",
        "width": "Largeur",
        "depth": "Hauteur",
        "price": "Prix TTC",
        "unit": "Unité",
        "piece": "pièce",
        "metre": "ml",
        "square": "m²",
        "film": "Contreplaqué filmé bouleau",
        "birch": "Contreplaqué bouleau",
        "soft": "Contreplaqué épicéa",
        "osb": "Panneau OSB/3",
        "bar": "Chevron sapin",
        "planed": "raboté",
        "sawn": "brut",
        "total": "Total",
        "currency": "€",
    },
    "it": {
        "code": "Codice",
        "name": "Descrizione",
        "thickness": "Spessore",
        "length": "Lunghezza",
        "width": "Larghezza",
        "depth": "Altezza",
        "price": "Prezzo ivato",
        "unit": "U.M.",
        "piece": "pz",
        "metre": "ml",
        "square": "mq",
        "film": "Multistrato betulla fenolico",
        "birch": "Multistrato betulla",
        "soft": "Compensato abete",
        "osb": "Pannello OSB/3",
        "bar": "Travetto abete",
        "planed": "piallato",
        "sawn": "grezzo",
        "total": "Totale",
        "currency": "€",
    },
    "es": {
        "code": "Referencia",
        "name": "Descripción",
        "thickness": "Espesor",
        "length": "Largo",
        "width": "Ancho",
        "depth": "Alto",
        "price": "Precio con IVA",
        "unit": "Unidad",
        "piece": "ud",
        "metre": "ml",
        "square": "m2",
        "film": "Tablero fenólico abedul",
        "birch": "Contrachapado abedul",
        "soft": "Contrachapado pino",
        "osb": "Tablero OSB/3",
        "bar": "Viga de pino",
        "planed": "cepillado",
        "sawn": "sin cepillar",
        "total": "Total",
        "currency": "€",
    },
    "pl": {
        "code": "Kod",
        "name": "Nazwa",
        "thickness": "Grubość",
        "length": "Długość",
        "width": "Szerokość",
        "depth": "Wysokość",
        "price": "Cena brutto",
        "unit": "j.m.",
        "piece": "szt.",
        "metre": "mb",
        "square": "m2",
        "film": "Sklejka brzozowa foliowana",
        "birch": "Sklejka brzozowa",
        "soft": "Sklejka sosnowa",
        "osb": "Płyta OSB/3",
        "bar": "Kantówka świerkowa",
        "planed": "strugana",
        "sawn": "nieheblowana",
        "total": "Razem",
        "currency": "zł",
    },
    "nl": {
        "code": "Artikelnr",
        "name": "Omschrijving",
        "thickness": "Dikte",
        "length": "Lengte",
        "width": "Breedte",
        "depth": "Hoogte",
        "price": "Prijs incl. BTW",
        "unit": "Eenheid",
        "piece": "stuk",
        "metre": "m1",
        "square": "m²",
        "film": "Betonplex berken",
        "birch": "Berken multiplex",
        "soft": "Vuren multiplex",
        "osb": "OSB/3 plaat",
        "bar": "Vuren balk",
        "planed": "geschaafd",
        "sawn": "ruw",
        "total": "Totaal",
        "currency": "€",
    },
    "en": {
        "code": "SKU",
        "name": "Description",
        "thickness": "Thickness",
        "length": "Length",
        "width": "Width",
        "depth": "Depth",
        "price": "Price inc VAT",
        "unit": "Unit",
        "piece": "each",
        "metre": "metre",
        "square": "m2",
        "film": "Film faced birch ply",
        "birch": "Birch plywood",
        "soft": "Spruce plywood",
        "osb": "OSB/3 board",
        "bar": "Timber joist",
        "planed": "planed",
        "sawn": "sawn",
        "total": "Total",
        "currency": "€",
    },
}
PANELS = [
    ("film", "birch film-faced"),
    ("birch", "birch"),
    ("soft", "softwood ply"),
    ("osb", "OSB/3"),
]


@dataclass(frozen=True)
class Style:
    """How a list is written."""

    language: str
    decimal: str
    delimiter: str
    unit: str
    in_columns: bool
    per_measure: bool
    titles: int
    encoding: str


STYLES = st.builds(
    Style,
    language=st.sampled_from(sorted(LANGUAGES)),
    decimal=st.sampled_from(",."),
    delimiter=st.sampled_from([";", "\t", "|", ","]),
    unit=st.sampled_from(["mm", "cm"]),
    in_columns=st.booleans(),
    per_measure=st.booleans(),
    titles=st.integers(0, 3),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]),
)
SHEETS = st.tuples(
    st.sampled_from(PANELS),
    st.sampled_from([12, 15, 18]),
    st.sampled_from([(2500, 1250), (2440, 1220), (1500, 3000), (1525, 1525)]),
    st.integers(1, 9999),
)
BARS = st.tuples(
    st.sampled_from([(45, 95), (60, 120), (80, 160), (100, 200)]),
    st.sampled_from([2400, 3000, 4200, 5000]),
    st.sampled_from(["C16", "C24", "C30"]),
    st.sampled_from(["planed", "sawn"]),
    st.integers(1, 9999),
)


def figure(value, style):
    text = f"{value:.2f}" if value == round(value, 2) else f"{value.normalize():f}"
    return text.replace(".", style.decimal)


def size(value_mm, style):
    value = Decimal(value_mm) / (10 if style.unit == "cm" else 1)
    return f"{value.normalize():f}".replace(".", style.decimal)


def priced(measure, step, style):
    """Return a price per piece in whole cents and the figure to print, per piece or per measure."""
    per = Decimal(step) / 100 * 20  # so that no rounding hides in the check
    each = (per * measure).quantize(Decimal("0.01"))
    if style.per_measure and each == per * measure:
        return int(each * 100), per, True
    each = each or Decimal("0.01")
    return int(each * 100), each, False


def render(sheets, bars, style):
    """Return a list's text and the offers it must read as."""
    words = LANGUAGES[style.language]
    lines = [["Preisliste 2026-03-01"], [], ["Musterholz"]][: style.titles]
    unit = style.unit
    head = [words["code"], words["name"]]
    if style.in_columns:
        head += [f"{words[key]} {unit}" for key in ("thickness", "width", "length")]
    lines.append([*head, words["unit"], f"{words['price']} {words['currency']}"])
    expected = set()
    for number, ((key, kind), thick, (length, width), step) in enumerate(sheets):
        cents, printed, per = priced(Decimal(length * width) / 10**6, step, style)
        sizes = [size(v, style) for v in (thick, width, length)]
        name = words[key]
        if not style.in_columns:
            name += (
                f" {size(thick, style)} {unit} {size(length, style)}x{size(width, style)} {unit}"
            )
        cells = [f"S{number}", name, *(sizes if style.in_columns else [])]
        lines.append([*cells, words["square" if per else "piece"], figure(printed, style)])
        grain = "width" if kind == "OSB/3" and length < width else "length"
        expected.add((kind, thick, length, width, grain, cents))
    for number, ((narrow, deep), length, strength, surface, step) in enumerate(bars):
        cents, printed, per = priced(Decimal(length) / 1000, step, style)
        sizes = [size(v, style) for v in (narrow, deep, length)]
        name = f"{words['bar']} {strength} {words[surface]}"
        if not style.in_columns:
            name += f" {size(narrow, style)}x{size(deep, style)}x{size(length, style)} {unit}"
        cells = [f"T{number}", name, *(sizes if style.in_columns else [])]
        lines.append([*cells, words["metre" if per else "piece"], figure(printed, style)])
        expected.add(("timber", narrow, deep, length, strength, surface, cents))
    lines.append([words["total"]])
    quoted = [
        [f'"{cell}"' if style.delimiter in cell or '"' in cell else cell for cell in line]
        for line in lines
    ]
    return "\n".join(style.delimiter.join(line) for line in quoted), expected


@settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    sheets=st.lists(SHEETS, min_size=1, max_size=6),
    bars=st.lists(BARS, min_size=1, max_size=6),
    style=STYLES,
)
def test_a_rendered_catalogue_reads_back_equal(tmp_path, sheets, bars, style):
    text, expected = render(sheets, bars, style)
    path = tmp_path / "list.txt"
    path.write_bytes(text.encode(style.encoding))
    reading = read_price_list(path)
    assert not reading.blocking
    found = {
        (o.kind, o.thickness_mm, o.length_mm, o.width_mm, o.face_grain, o.price_cents)
        for o in reading.sheets
    } | {
        ("timber", o.width_mm, o.depth_mm, o.length_mm, o.strength_class, o.surface, o.price_cents)
        for o in reading.timber
    }
    assert found == expected
    folder = tmp_path / "yard"
    catalog = to_catalog([reading])
    write_catalog(catalog, folder)
    again = read_catalog(folder)
    assert set(again.sheets) == set(catalog.sheets)
    assert set(again.timber) == set(catalog.timber)
    assert again.materials == read_materials()
