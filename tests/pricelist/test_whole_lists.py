"""Whole lists as yards print them, one per trade custom; what each offers is reckoned by hand.

All names and prices are made up.
"""

import pytest

from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping

GERMAN = """\
;;;;;;
HOLZHANDEL BEISPIEL;;;;;Preisliste 2026/1;
;;;;;gültig ab 01.10.2026;
Konstruktionsvollholz (KVH) NSi, Fichte, C24 (S10TS), getrocknet 15% +/-3%, gehobelt, gefast;;;;;;
Querschnitt;Längen;VPE Stk;€/m³;€/lfm;;
60/120;13,0 m;32;500,00;3,60;;
80/160;13,0 m;18;500,00;6,40;;
;;;;;;
Brettschichtholz (BSH) GL24h Sicht;;;;;;
100/200;12,0 m;9;659,00;13,18;;
;;;;;;
Dachlatten S10 sägerau, imprägniert braun;;;;;;
30/50;3,0/4,0/5,0 m;10;;0,80;;
;;;;;;
OSB/3 Verlegeplatten;;;;;;
Stärke;Format mm;Stk/Pal;Preis €/m²;;;
18;2500 x 1250;48;8,00;;;
22;2500 x 1250;39;10,00;;;
Siebdruckplatten, Birke durchgehend, Film/Sieb, 120 g/m², wasserfest verleimt;;;;;;
18;2500 x 1250;27;40,00;;;
Alle Preise verstehen sich in EURO zzgl. gesetzlicher MwSt. (20 %) ab Lager.;;;;;;
"""
GERMAN_GOODS = {
    ("60x120x13000", "C24", 5616),  # 3.60 x 13 x 1.2
    ("80x160x13000", "C24", 9984),
    ("30x50x3000", "C24", 288),
    ("30x50x4000", "C24", 384),
    ("30x50x5000", "C24", 480),
    ("osb3-18", "2500x1250", 3000),  # 8 x 3.125 x 1.2
    ("osb3-22", "2500x1250", 3750),
    ("birch-film-18", "2500x1250", 15000),
}
BRITISH = """\
"Example Timber","","","",""
"Price List - January 2026, all prices are exclusive of VAT at 20%","","","",""
"SAWN CARCASSING - KD GRADED C24","","","",""
"Size (mm)","3.0m","3.6m","4.8m",""
"47 x 100","6.95","8.34","11.12",""
"47 x 175","POA","14.90","19.85",""
"CLS STUDDING C16 - planed, eased edge","","","",""
"Size (mm)","2.4m","3.0m","",""
"38 x 89","4.20","5.25","",""
"SHEET MATERIALS","","","",""
"Description","Size","Thickness","Each (GBP)","10+"
"OSB3","2440 x 1220","18mm","26.40","25.10"
"Hardwood Faced Ply BB/CC WBP","2440 x 1220","18mm","47.50","45.00"
"Birch Throughout Plywood BB/BB","2440 x 1220","18mm","78.00","74.50"
"Film Faced Birch Plywood (anti-slip mesh)","8' x 4'","18mm","84.00","80.00"
"Delivery within 20 miles: £35.00 + VAT","","","",""
"""
BRITISH_GOODS = {
    ("47x100x3000", "C24", 834),
    ("47x100x3600", "C24", 1001),  # 8.34 x 1.2 = 10.008
    ("47x100x4800", "C24", 1334),
    ("47x175x3600", "C24", 1788),
    ("47x175x4800", "C24", 2382),
    ("38x89x2400", "C16", 504),
    ("38x89x3000", "C16", 630),
    ("osb3-18", "2440x1220", 3168),
    ("birch-18", "2440x1220", 9360),
    ("birch-film-18", "2438x1219", 10080),  # 8 ft = 2438.4 mm, rounded down
}
FRENCH = """\
NEGOCE EXEMPLE;;;;;;
TARIF PUBLIC - Prix en euros HT - TVA 20% en sus;;;;;;
PANNEAUX;;;;;;
Référence;Désignation;Ép.;Format;Cond.;Prix HT/m²;Prix HT/panneau
CTBX18;CP CTBX tout okoumé 18 mm;18;2500x1220;35;42,10;128,41
CPPM18;Contreplaqué pin maritime Type C+/C+;18;2500x1250;40;20,00;62,50
CPBL15;CP bouleau BB/WG;15;1525x1525;40;27,30;63,50
OSB3-18;OSB 3 bords droits;18;2500x1250;45;8,00;25,00
;;;;;;
BOIS DE CHARPENTE / OSSATURE;;;;;;
Référence;Désignation;Section (mm);Longueur (m);Prix HT/ml;;
MOB;Bois d'ossature épicéa C24 raboté 4 faces;45x95;2,50 / 3,00;2,60;;
CHEV;Chevron sapin C18 classe 2;63x75;3,00 à 6,00;2,45;;
MADR;Madrier C24 brut;75x225;5,00;9,10;;
LAMB;Lambourde pin traité cl.4;45x70;3,00;2,10;;
Livraison : 45 € HT forfait;;;;;;
"""
FRENCH_GOODS = {
    ("softwood-18", "2500x1250", 7500),
    ("birch-15", "1525x1525", 7620),
    ("osb3-18", "2500x1250", 3000),
    ("45x95x2500", "C24", 780),
    ("45x95x3000", "C24", 936),
    ("75x225x5000", "C24", 5460),
}
AMERICAN = """\
SKU,Description,Price (USD each, incl tax)
1001,2x4x8' SPF #2 Stud KD,3.98
1002,"2 in. x 6 in. x 10 ft. #2 Prime SPF",8.25
2001,"3/4"" 4x8 Birch Plywood",68.00
2002,"23/32 in. x 4 ft. x 8 ft. CDX Plywood (actual 0.703 in.)",44.50
2003,23/32 4x8 OSB sheathing,22.00
3001,Interior Paint 1 gal,29.00
"""
AMERICAN_GOODS = {
    ("38x88x2438", "C18", 398),  # NDS dressed 1.5 x 3.5 in
    ("38x139x3048", "C18", 825),
    ("birch-18", "1219x2438", 6800),
    ("rated-ply-18", "1219x2438", 4450),  # CDX: veneers C and D, Exposure 1, PS 1 [M]
    ("rated-osb-18", "1219x2438", 2200),  # no European class: PS 2 [M], and told as assumed
}
MERCHANT = """\
Gruppe\tArtikel-Nr\tArtikelbezeichnung 1\tArtikelbezeichnung 2\tPreis\tje\tPE\tStaffel ab
Platten\t4.1001\tSiebdruckplatte\t2500x1250x18 mm Birke\t4.000,00\tm2\t100\t1
Platten\t4.1002\tOSB-Verlegeplatte OSB/3\t2500x675x22 mm N+F\t1.000,00\tm2\t100\t1
Platten\t4.1003\tOSB-Verlegeplatte OSB/3\t2500x675x22 mm N+F\t900,00\tm2\t100\t50
KVH\t5.2001\tKVH NSI Fi/Ta C24\t60x120 mm 5000 mm\t360,00\tm\t100\t1
Alle Preise in Euro netto zzgl. der gesetzlichen MwSt. (20 %)
"""
MERCHANT_GOODS = {
    ("birch-film-18", "2500x1250", 15000),
    ("osb3-22", "2480x655", 2025),  # 10 x 1.6875 x 1.2, then 10 mm off every edge
    ("60x120x5000", "C24", 2160),
}
LISTS = {
    "german": (GERMAN, {"tongue_groove": "0"}, GERMAN_GOODS),
    "british": (BRITISH, {}, BRITISH_GOODS),
    "french": (FRENCH, {}, FRENCH_GOODS),
    "american": (AMERICAN, {"strength": "SPF No.2=C18"}, AMERICAN_GOODS),
    "merchant": (MERCHANT, {"tongue_groove": "10"}, MERCHANT_GOODS),
}


@pytest.mark.parametrize("name", LISTS)
def test_a_whole_list_offers_what_it_says(name, tmp_path):
    text, answers, goods = LISTS[name]
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    reading = read_price_list(path, from_mapping(answers, "test"))
    assert not reading.blocking
    sheets = {(o.panel, f"{o.length_mm}x{o.width_mm}", o.price_cents) for o in reading.sheets}
    bars = {
        (f"{o.width_mm}x{o.depth_mm}x{o.length_mm}", o.strength_class, o.price_cents)
        for o in reading.timber
    }
    assert sheets | bars == goods
    assert len({o.sku for o in reading.offers}) == len(reading.offers)
    assert [band.verdict for band in reading.bands] == ["in band"] * len(reading.bands)


def test_a_bars_class_is_not_taken_from_another_bar_above_it(tmp_path):
    path = tmp_path / "list.csv"
    path.write_text(
        "Nazwa;Cena brutto zł/szt\nDrewno KVH C24 60x120;\nKVH C24 60x120 L=4m;52,00\n"
        "Łata 40x60 4mb;11,50\n",
        encoding="utf-8",
    )
    reading = read_price_list(path)
    assert [o.depth_mm for o in reading.timber] == [120]


def test_a_class_that_stands_only_in_a_heading_is_an_assumption(tmp_path):
    path = tmp_path / "list.csv"
    path.write_text(
        "Bezeichnung;Preis EUR/Stk brutto\nBauholz C24;\nKantholz 60x120 5 m;18,00\n",
        encoding="utf-8",
    )
    reading = read_price_list(path)
    assert reading.timber[0].strength_class == "C24"
    assert "price-list-strength" in {one.code for one in reading.assumptions}
