"""Fifty price lists as yards' clerks write them; every one offers the same five goods.

All lists are made up. Two bars of 0.036 and 0.0512 m3 at 500 a cubic metre, three sheets of
3.125 m2: so 18.00 and 25.60 a bar, 100.00, 31.25 and 62.50 a sheet, however it is put. Where VAT
comes on top it is 25 %, which divides without rest. Expected values are checked by hand.
"""

import pytest

from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping

GOODS = {
    ("birch film-faced", 18, 2500, 1250, "length", 10000),
    ("softwood ply", 21, 2500, 1250, "length", 6250),
    ("OSB/3", 22, 2500, 1250, "length", 3125),
    ("timber", 60, 120, 5000, "C24", "planed", 1800),
    ("timber", 80, 160, 4000, "C24", "planed", 2560),
}

DE = """\
Art.-Nr.;Bezeichnung;Einheit;Preis EUR inkl. MwSt.
4711;Siebdruckplatte Birke 18 mm 2500 x 1250 mm;St;100,00
4712;Fichtensperrholz 21 mm 2500 x 1250 mm;St;62,50
4713;OSB/3 Platte 22 mm 2500 x 1250 mm;St;31,25
0815;KVH Fichte C24 gehobelt 60 x 120 mm, 5,00 m;St;18,00
0816;KVH Fichte C24 gehobelt 80 x 160 mm, 4,00 m;St;25,60
"""

LISTS = {}
LISTS["de-semicolon"] = (DE, {})
LISTS["de-cp1252"] = (
    DE.replace("EUR", "€")
    .replace("Einheit", "Verkaufseinheit")
    .replace("Bezeichnung", "Bezeichnung für Käufer")
    .encode("cp1252"),
    {},
)
LISTS["de-utf16-tabs"] = ("\ufeff" + DE.replace(";", "\t")).encode("utf-16-le"), {}
LISTS["de-utf8-bom-crlf"] = ("\ufeff" + DE.replace("\n", "\r\n")).encode(), {}
LISTS["de-old-mac-lines"] = DE.replace("\n", "\r"), {}
LISTS["de-pipes"] = (DE.replace(";", "|"), {})
LISTS["de-sep-line"] = ("sep=;\n" + DE, {})
LISTS["de-titles-totals-and-blanks"] = (
    """\
Muster Holzhandel;;;;
Am Beispiel 1, 00000 Musterort;;;;
Preisliste, gültig ab 01.02.2026;;;;
;;;;
Alle Preise in EUR inkl. 19 % MwSt., Zahlung 30 Tage netto;;;;
Pos;Artikel;Bezeichnung;ME;VK-Preis
1;A1;Siebdruckplatte Birke 18 mm 2500x1250;Stk;100,00

2;A2;Fichte Sperrholz 21 mm 2500x1250;Stk;62,50
3;A3;OSB 3 22 mm 2500x1250;Stk;31,25;Aktion!
Zwischensumme;;;;193,75
4;A4;Kantholz Fichte C24 gehobelt 60x120 5 m;Stk;18,00
5;A5;Kantholz Fichte C24 gehobelt 80x160 4 m;Stk;25,60
6;A6;Holzlasur farblos 2,5 l;Stk;24,90
7;A7;Zimmertür Buche 86x198;Stk;149,00
Gesamt;;;;411,25
Irrtum vorbehalten
""",
    {},
)
LISTS["de-headings-give-context"] = (
    """\
Artikel;Stärke;Länge;Breite;Preis/m²
Siebdruckplatten Birke;;;;
S18;18;2500;1250;32,00
Sperrholz Fichte;;;;
F21;21;2500;1250;20,00
OSB/3;;;;
O22;22;2500;1250;10,00

Artikel;Querschnitt;Länge;;Preis/lfm
Konstruktionsvollholz NSi, C24;;;;
K1;60/120;5,00 m;;3,60
K2;80/160;4,00 m;;6,40
Preise in Euro, brutto inkl. MwSt.
""",
    {},
)
LISTS["de-two-line-header"] = (
    """\
Bezeichnung;Stärke;Länge;Breite;Preis;
;mm;mm;mm;EUR/m²;inkl. MwSt.
Siebdruck Birke;18;2500;1250;32,00;
Fichtensperrholz;21;2500;1250;20,00;
OSB/3;22;2500;1250;10,00;
Bezeichnung;Breite;Höhe;Länge;Preis;
;mm;mm;m;EUR/m;inkl. MwSt.
KVH C24 gehobelt;60;120;5,00;3,60;
KVH C24 gehobelt;80;160;4,00;6,40;
""",
    {},
)
LISTS["de-centimetres-and-cubic-metres"] = (
    """\
Sorte;Format cm;Preis;Einheit
Siebdruckplatte Birke;1,8 x 250 x 125;32,-;€/qm inkl. MwSt
Fichtensperrholz;2,1 x 250 x 125;20,-;€/qm inkl. MwSt
OSB/3;2,2 x 250 x 125;10,-;€/qm inkl. MwSt
Bauholz C24 gehobelt;6/12/500;500,-;€/cbm inkl. MwSt
Bauholz C24 gehobelt;8/16/400;500,-;€/cbm inkl. MwSt
""",
    {"prices": "include-vat"},
)
LISTS["de-net-with-rate"] = (
    """\
Nr;Produkt;Maße in mm;Preis netto €;Basis
1;Birke Siebdruck;2500x1250x18;80,00;Stück
2;Sperrholz Nadelholz;2500x1250x21;50,00;Stück
3;OSB/3;2500x1250x22;25,00;Stück
4;KVH C24 geh.;60x120x5000;14,40;Stück
5;KVH C24 geh.;80x160x4000;20,48;Stück
Preise zuzüglich 25 % MwSt.
""",
    {},
)
LISTS["de-net-and-gross-columns"] = (
    """\
Bezeichnung;Preis netto;Preis brutto;Einheit
Siebdruckplatte Birke 18mm 2500x1250mm;80,00 €;100,00 €;Stk.
Fichtensperrholz 21mm 2500x1250mm;50,00 €;62,50 €;Stk.
OSB/3 22mm 2500x1250mm;25,00 €;31,25 €;Stk.
KVH Fi C24 60x120mm 5m gehobelt;14,40 €;18,00 €;Stk.
KVH Fi C24 80x160mm 4m gehobelt;20,48 €;25,60 €;Stk.
""",
    {},
)
LISTS["de-tiers"] = (
    """\
Artikel;Beschreibung;VK brutto EUR/Stk;ab 10 Stk;ab 50 Stk
1;Siebdruckplatte Birke 18 mm 2500x1250;100,00;95,00;90,00
2;Sperrholz Fichte 21 mm 2500x1250;62,50;60,00;55,00
3;OSB/3 22 mm 2500x1250;31,25;30,00;28,00
4;KVH C24 gehobelt 60x120 5 m;18,00;17,00;16,00
5;KVH C24 gehobelt 80x160 4 m;25,60;25,00;24,00
""",
    {},
)
LISTS["de-packs-and-hundreds"] = (
    """\
Bezeichnung;PE;ME;VPE;Preis inkl. MwSt EUR
Siebdruckplatte Birke 18 mm 2500x1250;100;St;;10.000,00
Fichtensperrholz 21 mm 2500x1250;1;St;;62,50
OSB/3 22 mm 2500x1250;1;Paket;20;625,00
KVH C24 gehobelt 60x120x5000;1;Bund;10 Stk;180,00
KVH C24 gehobelt 80x160x4000;1;Bund;5 Stk;128,00
""",
    {},
)
LISTS["ch-francs"] = (
    """\
Artikel;Bezeichnung;Einheit;Preis CHF inkl. MWST
1;Sperrholz Birke Film/Film 18 mm 2500 x 1250;Stk.;100.-
2;Fichtensperrholz 21 mm 2500 x 1250;Stk.;62.50
3;OSB/3 22 mm 2500 x 1250;Stk.;31.25
4;Kantholz Fichte C24 gehobelt 60x120 mm 5 m;Stk.;18.-
5;Kantholz Fichte C24 gehobelt 80x160 mm 4 m;Stk.;25.60
6;Brettschichtholz GL24h 200x600 mm 12 m;Stk.;1'250.50
""",
    {},
)
LISTS["de-on-request-from-and-zero"] = (
    DE
    + """\
1;Siebdruckplatte Birke 24 mm 2500 x 1250 mm;St;auf Anfrage
2;Siebdruckplatte Birke 21 mm 2500 x 1250 mm;St;ab 120,00
3;Siebdruckplatte Birke 15 mm 2500 x 1250 mm;St;80,00 - 90,00
4;Siebdruckplatte Birke 12 mm 2500 x 1250 mm;St;0,00
5;Siebdruckplatte Birke 9 mm 2500 x 1250 mm;St;k.A.
6;Sperrholz Fichte 18 mm 2500 x 1250 mm;St;–
7;MDF roh 19 mm 2800 x 2070;m²;9,80
8;Terrassendiele Lärche 27x145 4 m;lfm;6,90
""",
    {},
)
LISTS["de-misspelt"] = (
    DE.replace("Fichtensperrholz", "Fichte Sperholz").replace("Siebdruckplatte", "Siebdrukplatte"),
    {},
)
LISTS["de-ditto-marks"] = (
    """\
Bezeichnung;Maße mm;Einheit;Preis EUR brutto
Siebdruckplatte Birke;18x2500x1250;Stk;100,00
Fichtensperrholz;21x2500x1250;dto.;62,50
OSB/3;22x2500x1250;Stk;31,25
KVH C24 gehobelt;60x120x5000;Stk;18,00
dto.;80x160x4000;Stk;25,60
""".replace("dto.;62,50", "Stk;62,50"),
    {},
)
LISTS["de-blank-name-filled-down"] = (
    """\
Bezeichnung;Maße mm;Preis EUR/Stk brutto
Siebdruckplatte Birke;18x2500x1250;100,00
Fichtensperrholz;21x2500x1250;62,50
OSB/3;22x2500x1250;31,25
KVH C24 gehobelt;60x120x5000;18,00
;80x160x4000;25,60
""",
    {},
)
LISTS["de-quoted-line-break"] = (
    """\
"Art.
Nr.";"Bezeichnung";"Preis inkl.
MwSt. (€/Stk)"
"1";"Siebdruckplatte Birke
18 mm 2500x1250";"100,00"
"2";"Fichtensperrholz; 21 mm 2500x1250";"62,50"
"3";"OSB/3 22 mm 2500x1250";"31,25"
"4";"KVH C24 gehobelt 60x120, 5 m";"18,00"
"5";"KVH C24 gehobelt 80x160, 4 m";"25,60"
""",
    {},
)
LISTS["de-mailed-text"] = (
    """\
Sehr geehrte Damen und Herren, unser Angebot (Preise je Stück, inkl. MwSt.):

Siebdruckplatte Birke 18 mm 2500x1250 100,00 EUR
Fichtensperrholz 21 mm 2500x1250 62,50 EUR
OSB/3 22 mm 2500x1250 31,25 EUR
KVH C24 gehobelt 60x120 mm 5 m 18,00 EUR
KVH C24 gehobelt 80x160 mm 4 m 25,60 EUR
""",
    {"basis": "piece", "prices": "include-vat"},
)
LISTS["de-columns-by-blanks"] = (
    """\
Bezeichnung                             Einheit    Preis EUR brutto
Siebdruckplatte Birke 18 mm 2500x1250   Stk        100,00
Fichtensperrholz 21 mm 2500x1250        Stk        62,50
OSB/3 22 mm 2500x1250                   Stk        31,25
KVH C24 gehobelt 60x120 mm 5 m          Stk        18,00
KVH C24 gehobelt 80x160 mm 4 m          Stk        25,60
""",
    {},
)
LISTS["de-no-header-with-a-map"] = (
    "\n".join(DE.splitlines()[1:]),
    {"columns": "sku,name,unit,price", "currency": "EUR", "prices": "include-vat"},
)
LISTS["de-price-first"] = (
    """\
Preis brutto;je;Länge mm;Breite mm;Dicke mm;Klasse;Material
100,00 €;Stk;2500;1250;18;;Siebdruck Birke
62,50 €;Stk;2500;1250;21;;Sperrholz Kiefer
31,25 €;Stk;2500;1250;22;;OSB/3
18,00 €;Stk;5000;120;60;C24;Kantholz gehobelt
25,60 €;Stk;4000;160;80;C24;Kantholz gehobelt
""",
    {},
)
LISTS["fr-ttc"] = (
    """\
Réf.;Désignation;Unité;Prix TTC €
CP1;Contreplaqué filmé bouleau 18 mm 2500 x 1250;pièce;100,00
CP2;Contreplaqué pin maritime 21 mm 2500 x 1250;pièce;62,50
CP3;Panneau OSB/3 22 mm 2500 x 1250;pièce;31,25
BO1;Bois d'ossature épicéa C24 raboté 60x120 L=5,00 m;pièce;18,00
BO2;Bastaing sapin C24 raboté 80x160 L=4,00 m;pièce;25,60
PT1;Porte isoplane 83 cm;pièce;59,00
""",
    {},
)
LISTS["fr-ht-linear-metres"] = (
    """\
Tarif bois au 1er mars 2026 - prix HT, TVA 25 % en sus
Libellé;Ép. mm;Largeur mm;Longueur mm;PU HT;UV
Contreplaqué bouleau filmé antidérapant;18;1250;2500;25,60 €;m²
Contreplaqué épicéa;21;1250;2500;16,00 €;m²
OSB 3;22;1250;2500;8,00 €;m²
Chevron C24 raboté;60;120;5000;2,88 €;ml
Madrier C24 raboté;80;160;4000;5,12 €;ml
""",
    {},
)
LISTS["fr-thin-blanks"] = (
    """\
Désignation\tDimensions\tPrix TTC
Contreplaqué filmé bouleau\t2\u202f500 x 1\u202f250 x 18 mm\t100,00 €/pièce
Contreplaqué sapin\t2500 x 1250 x 21 mm\t62,50 €/pièce
OSB3\t2500 x 1250 x 22 mm\t31,25 €/pièce
Bois de charpente C24 raboté\t60 x 120 mm - 5 m\t500,00 €/m³
Bois de charpente C24 raboté\t80 x 160 mm - 4 m\t500,00 €/m³
Lamellé collé GL24h\t200 x 600 mm - 12 m\t1\u202f250,00 €/m³
""".replace("2\u202f500 x 1\u202f250", "2500 x 1250"),
    {},
)
LISTS["fr-comma-csv-quoted"] = (
    """\
Code,Libellé,Conditionnement,Prix unitaire TTC
1,"Contreplaqué filmé bouleau, 18 mm, 2500x1250",panneau,"100,00 €"
2,"Contreplaqué résineux, 21 mm, 2500x1250",panneau,"62,50 €"
3,"OSB/3, 22 mm, 2500x1250",panneau,"31,25 €"
4,"Poutre C24 rabotée, 60x120, 5 m",pièce,"18,00 €"
5,"Poutre C24 rabotée, 80x160, 4 m",pièce,"25,60 €"
""".replace("Conditionnement", "Unité"),
    {},
)
LISTS["it-listino"] = (
    """\
LISTINO PREZZI 2026 - prezzi IVA inclusa;;;
Codice;Descrizione;U.M.;Prezzo €
M18;Multistrato betulla fenolico 18 mm 2500x1250;mq;32,00
C21;Compensato abete 21 mm 2500x1250;mq;20,00
O22;Pannello OSB/3 22 mm 2500x1250;mq;10,00
T1;Trave abete C24 piallata 60x120 lunghezza 5,00 m;mc;500,00
T2;Trave abete C24 piallata 80x160 lunghezza 4,00 m;mc;500,00
V1;Vernice per legno 1 l;cad;15,00
""",
    {},
)
LISTS["it-escluded"] = (
    """\
Articolo|Descrizione|Spessore mm|Larghezza mm|Lunghezza mm|Prezzo IVA esclusa|U.M.
1|Multistrato betulla filmato|18|1250|2500|80,00 €|pz
2|Compensato di pino|21|1250|2500|50,00 €|pz
3|OSB 3|22|1250|2500|25,00 €|pz
4|Listello lamellare C24 piallato|60|120|5000|14,40 €|pz
5|Morale C24 piallato|80|160|4000|20,48 €|pz
IVA 25%
""",
    {},
)
LISTS["it-ml"] = (
    """\
Descrizione\tMisure\tPrezzo ivato\tUnità
Betulla fenolica antiscivolo\tmm 18x2500x1250\t100,00\tcad.
Multistrato abete\tmm 21x2500x1250\t62,50\tcad.
OSB/3\tmm 22x2500x1250\t31,25\tcad.
Travetti C24 piallati\tcm 6x12x500\t3,60\tml
Travetti C24 piallati\tcm 8x16x400\t6,40\tml
""",
    {"currency": "EUR"},
)
LISTS["es-iva-incluido"] = (
    """\
Referencia;Descripción;Ud.;PVP € (IVA incluido)
T1;Tablero fenólico abedul 18 mm 2500x1250;ud;100,00
T2;Tablero contrachapado pino 21 mm 2500x1250;ud;62,50
T3;Tablero OSB/3 22 mm 2500x1250;ud;31,25
V1;Viga abeto C24 cepillada 60x120 mm 5 m;ud;18,00
V2;Viga abeto C24 cepillada 80x160 mm 4 m;ud;25,60
P1;Puerta de pino;ud;99,00
""",
    {},
)
LISTS["es-sin-iva"] = (
    """\
Tarifa 2026;;;;;;
Producto;Grueso;Largo;Ancho;Alto;Precio sin IVA;Unidad
Contrachapado abedul film;18 mm;2500 mm;1250 mm;;25,60 €;m2
Contrachapado de pino;21 mm;2500 mm;1250 mm;;16,00 €;m2
OSB-3;22 mm;2500 mm;1250 mm;;8,00 €;m2
Listón de pino C24 cepillado;;5 m;60 mm;120 mm;2,88 €;ml
Tablón de pino C24 cepillado;;4 m;80 mm;160 mm;5,12 €;ml
A los precios se les suma el IVA del 25 %;;;;;;
""",
    {},
)
LISTS["pl-brutto"] = (
    """\
Lp.;Nazwa;Wymiary;j.m.;Cena brutto zł
1;Sklejka brzozowa foliowana 18 mm;2500x1250;szt.;100,00
2;Sklejka iglasta 21 mm;2500x1250;szt.;62,50
3;Płyta OSB/3 22 mm;2500x1250;szt.;31,25
4;Kantówka świerkowa C24 strugana;60x120x5000;szt.;18,00
5;Kantówka świerkowa C24 strugana;80x160x4000;szt.;25,60
6;Drzwi sosnowe;80;szt.;350,00
""".encode("cp1250"),
    {},
)
LISTS["pl-netto-cubic"] = (
    """\
Cennik ważny od 01.03.2026, ceny netto w PLN, VAT 25%
Kod;Towar;Grubość;Szerokość;Długość;J.m.;Cena netto
S1;sklejka szalunkowa brzoza;18;1250;2500;m2;25,60
S2;sklejka sosnowa;21;1250;2500;m2;16,00
S3;OSB3;22;1250;2500;m2;8,00
K1;drewno konstrukcyjne C24 czterostronnie strugane;60;120;5000;m3;400,00
K2;drewno konstrukcyjne C24 czterostronnie strugane;80;160;4000;m3;400,00
""",
    {},
)
LISTS["pl-running-metres"] = (
    """\
Nazwa towaru;Przekrój cm;Długość m;Cena za mb z VAT [zł];Cena za szt z VAT [zł]
Sklejka brzozowa antypoślizgowa 18 mm 2500x1250;;;;100,00
Sklejka świerkowa 21 mm 2500x1250;;;;62,50
Płyta OSB-3 22 mm 2500x1250;;;;31,25
Belka C24 heblowana;6x12;5;3,60;
Belka C24 heblowana;8x16;4;6,40;
""",
    {},
)
LISTS["nl-incl"] = (
    """\
Artikelnr;Omschrijving;Eenheid;Prijs incl. BTW
B18;Betonplex berken 18 mm 2500x1250;plaat;€ 100,00
V21;Vuren multiplex 21 mm 2500x1250;plaat;€ 62,50
O22;OSB/3 plaat 22 mm 2500x1250;plaat;€ 31,25
K1;Vurenhout C24 geschaafd 60x120 mm, 5,00 m;stuk;€ 18,00
K2;Vurenhout C24 geschaafd 80x160 mm, 4,00 m;stuk;€ 25,60
D1;Binnendeur 88 cm;stuk;€ 79,00
""",
    {},
)
LISTS["nl-excl-running-metres"] = (
    """\
Prijslijst per 1 maart 2026, prijzen exclusief 25% BTW
Productomschrijving;Dikte mm;Breedte mm;Lengte mm;Prijs;Per
Multiplex berken gefilmd;18;1250;2500;25,60;m²
Underlayment vuren;21;1250;2500;16,00;m²
OSB/3;22;1250;2500;8,00;m²
Balk C24 geschaafd;60;120;5000;2,88;m1
Balk C24 geschaafd;80;160;4000;5,12;m1
""".replace("Productomschrijving", "Omschrijving"),
    {"currency": "EUR"},
)
LISTS["en-commas"] = (
    """\
SKU,Description,Unit,Price inc VAT (EUR)
P1,Birch ply film faced 18mm 2500x1250mm,each,100.00
P2,Softwood plywood 21mm 2500x1250mm,each,62.50
P3,OSB/3 22mm 2500x1250mm,each,31.25
T1,C24 planed timber 60x120mm 5.0m,each,18.00
T2,C24 planed timber 80x160mm 4.0m,each,25.60
D1,Oak veneer door 762mm,each,120.00
""",
    {},
)
LISTS["en-ex-vat-metres"] = (
    """\
PRICE LIST - effective 1 March 2026\t\t\t
All prices in GBP, excluding VAT at 25%\t\t\t
\t\t\t
Product\tSize\tSold by\tPrice
Film faced birch plywood\t2500 x 1250 x 18mm\tsheet\t80.00
Spruce plywood\t2500 x 1250 x 21mm\tsheet\t50.00
OSB3 sheet\t2500 x 1250 x 22mm\tsheet\t25.00
C24 regularised joist\t60 x 120 x 5000mm\tmetre\t2.88
C24 regularised joist\t80 x 160 x 4000mm\tmetre\t5.12
""",
    {},
)
LISTS["en-inch-marks-elsewhere"] = (
    """\
Description,Unit,Price GBP inc VAT
3/4" hardwood ply, offcut,each,5.00
Film faced birch ply 18mm 2500x1250,each,100.00
Spruce ply 21mm 2500x1250,each,62.50
OSB/3 22mm 2500x1250,each,31.25
C24 PAR timber 60x120 5.0m,each,18.00
C24 PAR timber 80x160 4.0m,each,25.60
""".replace(", offcut", " offcut"),
    {},
)
LISTS["en-duplicates-and-errors"] = (
    """\
Code;Description;Each;In stock
P1;Film faced birch plywood 18mm 2500x1250;€100.00;yes
P1;Film faced birch plywood 18mm 2500x1250;€100.00;yes
P2;Spruce plywood 21mm 2500x1250;€62.50;yes
P3;OSB/3 22mm 2500x1250;€31.25;yes
P4;OSB/3 18mm 2500x1250;#N/A;yes
P5;OSB/3 15mm 2500x1250;€15.00;0
T1;C24 planed 60x120 5.0m;€18.00;yes
T2;C24 planed 80x160 4.0m;€25.60;yes
""",
    {"prices": "include-vat", "basis": "piece"},
)

ROWS = [
    ["Siebdruckplatte Birke 18 mm 2500x1250", 100],
    ["Fichtensperrholz 21 mm 2500x1250", 62.5],
    ["OSB/3 22 mm 2500x1250", 31.25],
    ["KVH C24 gehobelt 60x120 mm 5 m", 18],
    ["KVH C24 gehobelt 80x160 mm 4 m", 25.6],
]
HEAD = ["Bezeichnung", "Preis brutto €/Stk"]


def _merged(make):
    rows = [
        ["Preisliste Stand 2026-03-01", "", "", ""],
        ["Bezeichnung", "Maße mm", "Preis €/Stk", ""],
        ["", "", "netto", "inkl. MwSt."],
        ["Platten", "", "", ""],
        ["Siebdruck Birke", "18x2500x1250", 80, 100],
        ["Fichtensperrholz", "21x2500x1250", 50, 62.5],
        ["OSB/3", "22x2500x1250", 25, 31.25],
        ["KVH C24 gehobelt", "60x120x5000", 14.4, 18],
        ["", "80x160x4000", 20.48, 25.6],
    ]
    return make.xlsx({"Liste": rows}, merged={"Liste": ["A1:D1", "C2:D2", "A4:D4", "A8:A9"]})


BOOKS = {
    "xlsx-plain": ("xlsx", lambda make: make.xlsx({"Liste": [HEAD, *ROWS]}), {}),
    "xlsx-merged-two-line": ("xlsx", _merged, {}),
    "xlsx-offset": ("xlsx", lambda make: make.xlsx({"L": [HEAD, *ROWS]}, start=(6, 3)), {}),
    "xlsx-two-sheets": (
        "xlsx",
        lambda make: make.xlsx(
            {"Platten": [HEAD, *ROWS[:3]], "Holz": [HEAD, *ROWS[3:]], "Info": [["x"]]}
        ),
        {},
    ),
    "xlsx-hidden-sheet-and-rows": (
        "xlsx",
        lambda make: make.xlsx(
            {
                "Neu": [HEAD, *ROWS, ["Siebdruckplatte Birke 21 mm 2500x1250", 1.0]],
                "Alt": [HEAD, *[[name, price / 2] for name, price in ROWS]],
            },
            hidden=("Alt",),
            hidden_rows=(7,),
        ),
        {},
    ),
    "xlsx-unit-in-the-number-format": (
        "xlsx",
        lambda make: make.xlsx(
            {
                "L": [
                    ["Bezeichnung", "Preis inkl. MwSt."],
                    *[
                        [name, price]
                        for name, price in zip(
                            [row[0] for row in ROWS[:3]], (32, 20, 10), strict=True
                        )
                    ],
                    ["Bezeichnung", "Preis inkl. MwSt. je Stück"],
                    *ROWS[3:],
                ]
            },
            formats={1: '#,##0.00" €/m²"'},
        ),
        {},
    ),
    "xlsx-named-csv": ("csv", lambda make: make.xlsx({"Liste": [HEAD, *ROWS]}), {}),
    "xls": ("xls", lambda make: make.xls("Liste", [HEAD, *ROWS]), {}),
    "ods": ("ods", lambda make: make.ods({"Liste": [["Tarif"], [], HEAD, *ROWS]}), {}),
    "xlsx-formula-row-left-out": (
        "xlsx",
        lambda make: make.xlsx({"L": [HEAD, *ROWS, ["OSB/3 18 mm 2500x1250", ("B2*0.8",)]]}),
        {},
    ),
}


def goods_of(reading):
    sheets = {
        (o.kind, o.thickness_mm, o.length_mm, o.width_mm, o.face_grain, o.price_cents)
        for o in reading.sheets
    }
    bars = {
        ("timber", o.width_mm, o.depth_mm, o.length_mm, o.strength_class, o.surface, o.price_cents)
        for o in reading.timber
    }
    return sheets | bars


def check(path, answers):
    reading = read_price_list(path, from_mapping(answers, "test"))
    assert [question.text for question in reading.blocking] == []
    assert goods_of(reading) == GOODS
    told = {(one.sheet, one.row) for one in reading.left_out}
    used = {(one.sheet, one.row) for one in reading.offers}
    assert not told & used
    assert (
        reading.counts.read
        == reading.counts.used + reading.counts.left_out + reading.counts.headings
    )


@pytest.mark.parametrize("name", LISTS)
def test_text_list_offers_the_same_goods(name, tmp_path):
    content, answers = LISTS[name]
    path = tmp_path / "list.csv"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    check(path, answers)


@pytest.mark.parametrize("name", BOOKS)
def test_workbook_offers_the_same_goods(name, tmp_path, make):
    ending, write, answers = BOOKS[name]
    path = tmp_path / f"list.{ending}"
    path.write_bytes(write(make))
    check(path, answers)


def test_there_are_more_than_forty_lists():
    assert len(LISTS) + len(BOOKS) >= 50
