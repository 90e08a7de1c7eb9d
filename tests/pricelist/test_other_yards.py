"""Lists in the style of yards unlike the other tests': what each offers, worked out by hand.

Names and prices are invented. A price is the printed one times length, area or volume, over the
pieces of a pack, times 1 + VAT, rounded half up; whatever a list leaves open must be asked, not
guessed. What a row says of tongue and groove, cut pieces, mixed wood or a second size must keep it
out. Trade words are common practice, no source.
"""

import csv
import io
import re

import pytest

from steepwright.pricelist import read_price_list
from steepwright.pricelist.answers import from_mapping
from steepwright.pricelist.notes import vat_in

LISTS = {}
"""Per name: the list, the answers, its offers, the rows left out and why, the open questions."""

LISTS["de-holzhandel"] = (
    """\
Muster-Holzhandel GmbH;;;;;;
EK-Preisliste Plattenwerkstoffe / Schnittholz;;;;Stand: 03/2026;;
Preise in EUR netto zzgl. 19 % MwSt. Irrtum und Zwischenverkauf vorbehalten;;;;;;
Art.-Nr.;Bezeichnung;Format;Stärke;EK netto;VE;ME
100200;Multiplex Birke BB/BB lang;2500x1250;18;42,90;30;m²
100201;Multiplex Birke BB/BB;1525x1525;18;39,50;30;m²
100202;Siebdruckplatte Birke Sieb/Film;3000x1500;21;47,10;24;m²
100210;OSB/3 Verlegeplatte N+F;2500x675;22;9,80;50;m²
100211;OSB-3 22 mm N+F;2500x1250;22;9,95;40;m²
100212;OSB/3 stumpf;2500x1250;22;9,40;40;m²
100213;Restposten Birke Multiplex 18mm;2500x1250;18;19,90;1;m²
100214;Fichte Sperrholz C+/C;2500x1250;21;auf Anfrage;20;m²
200100;KVH NSi 60x120 5 m;;;3,15;1;lfm
200101;KVH NSi 80x160 13,00 m;;;5,95;1;lfm
200102;BSH GL24h Si 100x200 12 m;;;19,80;1;lfm
200103;Rahmen gehobelt C24 45x95 4,00 m;;;2.150,00;100;Pak
""",
    {},
    {
        (5, "birch-18", 2500, 1250, "length", 15953),
        (6, "birch-18", 1525, 1525, "length", 10932),
        (7, "birch-film-21", 3000, 1500, "length", 25222),
        (10, "osb3-22", 2500, 1250, "length", 3496),
        (13, "60x120", 5000, "C24", "planed", 1874),
        (14, "80x160", 13000, "C24", "planed", 9205),
        (16, "45x95", 4000, "C24", "planed", 2559),
    },
    {
        8: "tongue and groove, whose edges are no straight joint",
        9: "tongue and groove, whose edges are no straight joint",
        11: "used or second-choice goods, whose strength nobody vouches for",
        12: "price on request: auf Anfrage",
        15: "no strength values for class GL24h",
    },
    {"strength", "tongue_groove"},
)
LISTS["de-ab10"] = (
    """\
Artikel;Preis EUR/Stk. inkl. 19 % MwSt.;ab 10 Stk.;ab 50 Stk.
Siebdruckplatte Birke 18 mm 250 x 125 cm;149,00;139,00;129,00
OSB/3 Platte 18 mm 250 x 125 cm *);28,90;26,90;24,90
KVH Fichte 60 x 120 mm NSi Länge 5,00 m;19,90;18,50;17,90
KVH Fichte 60 x 120 mm Nsi, Länge 6,00 m;23,90;22,50;
*) Nur solange Vorrat reicht
""",
    {},
    {
        (2, "birch-film-18", 2500, 1250, "length", 14900),
        (3, "osb3-18", 2500, 1250, "length", 2890),
        (4, "60x120", 5000, "C24", "planed", 1990),
        (5, "60x120", 6000, "C24", "planed", 2390),
    },
    {},
    set(),
)
LISTS["de-thousands"] = (
    """\
Bezeichnung;Einheit;Preis EUR brutto
BSH GL24h 140 x 280 x 12.000 mm;Stk;1.250,00
BSH GL24h 100 x 200 x 12.000 mm;Stk;598,00
Siebdruck Birke 18 x 2.500 x 1.250 mm;Stk;149,00
Siebdruckplatte Birke 18 mm, 2.500 x 1.250 mm, Paket 30 Stk;Paket;4.110,00
""",
    {"strength": "GL24h=C24"},
    {
        (4, "birch-film-18", 2500, 1250, "length", 14900),
        (5, "birch-film-18", 2500, 1250, "length", 13700),
        (2, "140x280", 12000, "C24", "not said", 125000),
        (3, "100x200", 12000, "C24", "not said", 59800),
    },
    {},
    set(),
)
LISTS["de-pdf-spaces"] = (
    """\
Preisliste Holz Beispiel, gültig ab 01.03.2026, Preise inkl. MwSt. in EUR

Artikel                                   Maß                ME     Preis
Siebdruckplatte Birke 18 mm               2500 x 1250 mm     Stk    149,00
OSB 3 22 mm                               2500 x 1250 mm     Stk     34,50
KVH C24 NSi 60/120                        5,00 m             lfm      4,10
KVH C24 NSi 60/120                        13,00 m            lfm      3,90
""",
    {},
    {
        (4, "birch-film-18", 2500, 1250, "length", 14900),
        (5, "osb3-22", 2500, 1250, "length", 3450),
        (6, "60x120", 5000, "C24", "planed", 2050),
        (7, "60x120", 13000, "C24", "planed", 5070),
    },
    {},
    set(),
)
LISTS["notes"] = (
    """\
Beispielholz KG - Preisliste 2026 I - Seite 1 von 3
Alle Preise verstehen sich in EUR je Einheit ab Lager, zuzügl. der gesetzl. MwSt. von 19 %.
Art;Stärke;Format;Faser;EUR/m²;EUR/Tafel
Birke-Multiplex BB/BB;18;250 x 125;längs;43,20;135,00
Birke-Multiplex BB/BB;18;125 x 250;quer;43,20;135,00
Birke-Multiplex S/BB;21;250 x 125;;a. A.;a. A.
Birke-Siebdruck;21;300 x 150;;51,50¹);231,75
Fichte-Sperrholz C+/C;21;250 x 125;;19,90;62,19
OSB/3;18;250 x 125;;9,90*;30,94
OSB/3 ungeschliffen, gerade Kante;22;280 x 125;;11,90;41,65
¹) Auslaufartikel, solange Vorrat
* Palettenpreis, Anbruch + 10 %
""",
    {},
    {
        (4, "birch-18", 2500, 1250, "length", 16065),
        (5, "birch-18", 1250, 2500, "length", 16065),
        (7, "birch-film-21", 3000, 1500, "length", 27578),
        (8, "softwood-21", 2500, 1250, "length", 7401),
        (9, "osb3-18", 2500, 1250, "length", 3682),
        (10, "osb3-22", 2800, 1250, "length", 4956),
    },
    {
        6: "price on request: a. A.",
    },
    set(),
)
LISTS["at"] = (
    """\
Preisliste Schnittholz Österreich gültig ab 1.4.2026, Preise exkl. 20 % USt.
Sortiment;Dimension;Länge;Preis
;cm;m;€/m³
Kantholz C24 gehobelt;8/16;5,0;495,-
Kantholz C24 gehobelt;6/12;4,0 bis 6,0 (0,5 steigend);510,-
Staffel roh S10;5/8;4,0;420,-
Latten S10;3/5;4,0;455,-
Platten;;;€/m²
Siebdruck Birke 18 mm;250/125;;39,90
OSB 3 22 mm;250/125;;11,20
""",
    {"length_step": "0.5"},
    {
        (9, "birch-film-18", 2500, 1250, "length", 14963),
        (10, "osb3-22", 2500, 1250, "length", 4200),
        (4, "80x160", 5000, "C24", "planed", 3802),
        (5, "60x120", 4000, "C24", "planed", 1763),
        (5, "60x120", 4500, "C24", "planed", 1983),
        (5, "60x120", 5000, "C24", "planed", 2203),
        (5, "60x120", 5500, "C24", "planed", 2424),
        (5, "60x120", 6000, "C24", "planed", 2644),
        (6, "50x80", 4000, "C24", "sawn", 806),
        (7, "30x50", 4000, "C24", "not said", 328),
    },
    {},
    set(),
)
LISTS["col-cm"] = (
    """\
Nr;Ware;Dicke cm;Breite cm;Länge cm;€ brutto
1;Siebdruckplatte Birke;1,8;125;250;149,00
2;Kantholz C24 gehobelt;6;12;500;19,50
3;Kantholz C24 gehobelt;6;12;400;15,60
4;Rahmen C24 gehobelt;4,5;9,5;300;9,90
""",
    {"basis": "piece"},
    {
        (2, "birch-film-18", 2500, 1250, "length", 14900),
        (3, "60x120", 5000, "C24", "planed", 1950),
        (4, "60x120", 4000, "C24", "planed", 1560),
        (5, "45x95", 3000, "C24", "planed", 990),
    },
    {},
    set(),
)
LISTS["multi"] = (
    """\
Bezeichnung;Einheit;Preis EUR inkl. 19% MwSt
Multiplex Birke 18 mm 2500x1250 / 3000x1500;m²;42,00
Multiplex Birke 18 mm 2500x1250 / 3000x1500;Stk;131,25
Multiplex Birke 15/18/21 mm 2500x1250;m²;42,00
KVH NSi 60x120 / 60x140 / 60x160 5 m;m³;560,00
KVH NSi 60x120, 60x140, 80x160, Länge 5 m;m³;560,00
Siebdruckplatte Birke 18 mm 2500x1250 (Nettomaß 2440x1220);Stk;149,00
Kombi-Siebdruckplatte 18 mm 2500x1250;Stk;79,00
Siebdruckplatte Twin 18 mm 2500x1250;Stk;79,00
OSB/3 18 mm 2500x1250 Zuschnitt nach Maß;m²;14,00
Siebdruckplatte Birke 18 mm Zuschnitt max. 2500x1250;m²;59,00
KVH C24 60x120 gehobelt 5 m, 10er Bund;Stk;19,90
KVH C24 60x120 gehobelt 5 m;Bund;19,90
KVH C24 60x120 gehobelt 5 m Bund à 6 Stk;Bund;119,40
KVH C24 60x120 gehobelt 5 m Bund à 6 Stk;Stk;119,40
Rahmenholz C24 4,5x9,5 gehobelt 3-5 m;lfm;2,90
Latte C24 gehobelt 40/60 2,50/3,00/4,00m;lfm;1,90
Latte C24 gehobelt 40/60 2,50/3,00/4,00m;Stk;7,90
""",
    {"pack_pieces": "10", "size_unit": "mm"},
    {
        (12, "60x120", 5000, "C24", "planed", 1990),
        (13, "60x120", 5000, "C24", "planed", 199),
        (15, "60x120", 5000, "C24", "planed", 11940),
        (17, "40x60", 2500, "C24", "planed", 475),
        (17, "40x60", 3000, "C24", "planed", 570),
        (17, "40x60", 4000, "C24", "planed", 760),
    },
    {
        2: "no length and width that fits a sheet",
        3: "no length and width that fits a sheet",
        4: "the size can be read in two units",
        5: "no section that fits a bar",
        6: "several sections in one row",
        7: "several sizes in one row",
        8: "film-faced plywood with a core other than birch: no strength values",
        9: "film-faced plywood with a core other than birch: no strength values",
        10: "cut to size, not a whole sheet",
        11: "cut to size, not a whole sheet",
        14: "the same product as row 15 at another price",
        16: "lengths from 3000 to 5000 mm without a step",
        18: "one price per piece for several lengths",
    },
    {"length_step"},
)
LISTS["pl-sklejka"] = (
    """\
Cennik netto PLN, VAT 23%, ważny od 01.03.2026
Lp.;Nazwa towaru;J.m.;Cena netto;Cena brutto
1;Sklejka brzozowa wodoodporna 2500x1250x18 S/BB;ark.;312,50;384,38
2;Sklejka szalunkowa 2500x1250x18 F/W;szt;298,00;366,54
3;Sklejka sosnowa 2500x1250x18 C/C;m2;58,40;71,83
4;Płyta OSB-3 18mm 2500x1250 p/w;szt.;74,00;91,02
5;Płyta OSB-3 22mm 2500x1250 prosta;m2;31,00;38,13
6;Drewno konstrukcyjne C24 czterostronnie strugane 45x145 L=4,8m;szt;58,00;71,34
7;Drewno KVH NSi C24 60x120 dł. 5,0 m;mb;13,20;16,24
8;Łata 40x60 impregnowana;mb;4,20;5,17
9;Kantówka C24 suszona strugana 60x120x5000;m3;2 150,00;2 644,50
""",
    {},
    {
        (3, "birch-18", 2500, 1250, "length", 38438),
        (4, "birch-film-18", 2500, 1250, "length", 36654),
        (5, "softwood-18", 2500, 1250, "length", 22447),
        (7, "osb3-22", 2500, 1250, "length", 11916),
        (8, "45x145", 4800, "C24", "planed", 7134),
        (9, "60x120", 5000, "C24", "planed", 8120),
        (11, "60x120", 5000, "C24", "planed", 9520),
    },
    {
        6: "tongue and groove, whose edges are no straight joint",
        10: "no strength class: not structural timber",
    },
    {"strength", "tongue_groove"},
)
LISTS["pl2"] = (
    """\
Nazwa;Jedn.;Cena brutto;Cena promocyjna
Sklejka brzozowa 18mm 2500x1250 kl. BB/BB;arkusz;389,00 zł;349,00 zł
Sklejka liściasta suchotrwała 18mm 2500x1250;arkusz;199,00 zł;
Sklejka antypoślizgowa brzoza 18mm 1250x2500;arkusz;299,00 zł;
OSB 3 22 mm 250x125 cm;szt.;109,90 zł;
OSB 3 22 mm P+W 250x67,5 cm;szt.;64,90 zł;
OSB 18 mm 250x125 cm;szt.;79,90 zł;
Kantówka C24 strugana 45x95x3600;szt.;34,99 zł;
Kantówka świerk 60x60 strugana 3 mb;szt.;29,99 zł;
Belka C24 suszona strugana 80 x 160 mm - 4,00 m;m3;1 950,00 zł;
""",
    {},
    {
        (2, "birch-18", 2500, 1250, "length", 38900),
        (4, "birch-film-18", 1250, 2500, "length", 29900),
        (5, "osb3-22", 2500, 1250, "length", 10990),
        (8, "45x95", 3600, "C24", "planed", 3499),
        (10, "80x160", 4000, "C24", "planed", 9984),
    },
    {
        3: "plywood of another or mixed wood: no strength values for it",
        6: "tongue and groove, whose edges are no straight joint",
        7: "OSB without its class (OSB/2 or OSB/3)",
        9: "no strength class: not structural timber",
    },
    {"osb", "strength", "tongue_groove"},
)
LISTS["fr-cp"] = (
    """\
Tarif panneaux et charpente au 1er mars 2026;;;
Prix H.T. en € - TVA 20 %;;;
Réf;Désignation;U;P.U. HT
CP18;contreplaqué bouleau filmé 18mm 250x125;PCE;98,50
CP15;Contreplaqué bouleau WBP 15 mm 2500 x 1250;m²;31,20
CPP;Contreplaqué pin maritime CTBX 18mm 250 x 125;M2;16,90
OSB;OSB 3 rainuré 4 rives 18 mm 250x67,5;PCE;18,40
OSBD;Dalle OSB3 bords droits 18mm 250x125;M2;8,20
BASS;Bastaing C24 63x175 4,00 m;ML;7,10
CHEV;Chevron C18 63x75 raboté sec en 3m / 4m / 5m;ML;3,15
OSSA;Bois d'ossature C24 45x120 raboté 4,80m;ML;3,90
OSSB;Bois d'ossature C24 45x145 raboté, par botte de 96, 5,10 m;ML;4,60
DECO;Découpe au panneau;la coupe;2,50
""",
    {},
    {
        (4, "birch-film-18", 2500, 1250, "length", 11820),
        (5, "birch-15", 2500, 1250, "length", 11700),
        (6, "softwood-18", 2500, 1250, "length", 6338),
        (8, "osb3-18", 2500, 1250, "length", 3075),
        (9, "63x175", 4000, "C24", "not said", 3408),
        (10, "63x75", 3000, "C18", "planed", 1134),
        (10, "63x75", 4000, "C18", "planed", 1512),
        (10, "63x75", 5000, "C18", "planed", 1890),
        (11, "45x120", 4800, "C24", "planed", 2246),
        (12, "45x145", 5100, "C24", "planed", 2815),
    },
    {
        7: "tongue and groove, whose edges are no straight joint",
    },
    {"tongue_groove"},
)
LISTS["fr2"] = (
    """\
Catalogue bois et panneaux — prix TTC
Désignation;Épaisseur;Dimensions;Conditionnement;Prix au m²;Prix unitaire
Contreplaqué tout bouleau 13 plis;18 mm;2500 x 1250 mm;à l'unité;52,00 €;162,50 €
Contreplaqué peuplier;10 mm;2500 x 1220 mm;à l'unité;15,00 €;45,75 €
Contreplaqué okoumé extérieur CTBX;18 mm;2500 x 1220 mm;;39,00 €;118,95 €
Dalle OSB3 R/L 4 côtés;18 mm;2050 x 625 mm;palette 78;11,90 €;15,25 €
Panneau OSB3;18 mm;2800 x 1196 mm;;10,50 €;35,16 €
Bois d'ossature épicéa C24 raboté 45x145;;5,10 m;fardeau 96;;24,50 €
Chevron sapin brut 60x80 classe 2;;4 m;;;9,80 €
Lamellé collé GL24h 80x200;;6 m;;;95,00 €
Madrier douglas C24 raboté 75x225;;4 m;;;69,00 €
1 234,50 €
""",
    {},
    {
        (3, "birch-18", 2500, 1250, "length", 16250),
        (7, "osb3-18", 2800, 1196, "length", 3516),
        (8, "45x145", 5100, "C24", "planed", 2450),
        (11, "75x225", 4000, "C24", "planed", 6900),
    },
    {
        4: "plywood of another or mixed wood: no strength values for it",
        5: "plywood of another or mixed wood: no strength values for it",
        6: "tongue and groove, whose edges are no straight joint",
        9: "no strength class: not structural timber",
        10: "no strength values for class GL24h",
    },
    {"strength", "tongue_groove"},
)
LISTS["it"] = (
    """\
LISTINO PREZZI N. 3/2026 - valido dal 02/03/2026
Prezzi in Euro, IVA 22% esclusa
Cod.;Descrizione;Dim. cm;Sp. mm;U.M.;Prezzo
B18;Multistrato betulla BB/BB;250x125;18;mq;36,80
B18Q;Multistrato betulla;152,5x152,5;18;mq;33,90
F18;Multistrato betulla fenolico antiscivolo;250x125;18;pz;119,00
P15;Multistrato pioppo;250x122;15;mq;14,20
A18;Compensato abete strutturale;250x125;18;mq;19,90
O18;OSB 3;250x125;18;mq;8,75
L1;Lamellare abete GL24h 10x20 L=12 m;;;mc;620,00
T1;Trave KVH C24 piallata 8x16 L. 13 m;;;mc;540,00
M1;Morali abete C24 piallati 6x8 lunghezza 4 m;;;cad;9,80
""",
    {},
    {
        (4, "birch-18", 2500, 1250, "length", 14030),
        (5, "birch-18", 1525, 1525, "length", 9618),
        (6, "birch-film-18", 2500, 1250, "length", 14518),
        (8, "softwood-18", 2500, 1250, "length", 7587),
        (9, "osb3-18", 2500, 1250, "length", 3336),
        (11, "80x160", 13000, "C24", "planed", 10962),
        (12, "60x80", 4000, "C24", "planed", 1196),
    },
    {
        7: "plywood of another or mixed wood: no strength values for it",
        10: "no strength values for class GL24h",
    },
    {"strength"},
)
LISTS["it2"] = (
    """\
PREZZI IVA COMPRESA
Articolo;Misure (mm);Conf.;€/mq;€/pz
Multistrato betulla BB;2500x1250x18;25;41,00;128,13
Multistrato betulla BB;3050x1525x18;25;41,00;190,71
OSB/3 maschiato 4 lati;2500x675x18;60;10,20;17,21
OSB/3 bordo dritto;2500x1250x18;40;9,80;30,63
Lamiere forate;2000x1000x2;1;;45,00
Travi KVH NSi C24;80x160x13000;16;;98,00
Travetti abete C24 piallati 60x80;4000 mm;100;;11,50
Listelli abete C24 grezzi 40x50 m 4;;100;;4,60
""",
    {},
    {
        (3, "birch-18", 2500, 1250, "length", 12813),
        (4, "birch-18", 3050, 1525, "length", 19071),
        (6, "osb3-18", 2500, 1250, "length", 3063),
        (8, "80x160", 13000, "C24", "planed", 9800),
        (9, "60x80", 4000, "C24", "planed", 1150),
        (10, "40x50", 4000, "C24", "sawn", 460),
    },
    {
        5: "tongue and groove, whose edges are no straight joint",
        7: "neither a sheet nor timber nor hardware that we know",
    },
    {"tongue_groove"},
)
LISTS["es"] = (
    """\
TARIFA 2026;;;
Precios sin IVA (21 %);;;
Código;Descripción;Ud;P.V.P. €
1;Tablero contrachapado fenólico abedul antideslizante 2500x1250x18;ud;104,50
2;Tablero contrachapado fenólico 2500 x 1250 x 18 mm;ud;62,00
3;Contrachapado pino radiata 2440x1220x18;m2;15,30
4;OSB-3 machihembrado 2500x675x18;m2;8,10
5;OSB-3 2500x1250x18;m2;7,60
6;Viga laminada GL24h abeto 100x200x12000;m3;690,00
7;Madera aserrada C24 cepillada 45x145 5,10 m;ml;4,95
8;Rastrel pino 40x60x3000;ud;5,20
9;Listón C18 cepillado 45 x 95, largos 3, 4 y 5 m;ml;2,95
""",
    {},
    {
        (4, "birch-film-18", 2500, 1250, "length", 12645),
        (5, "birch-film-18", 2500, 1250, "length", 7502),
        (6, "softwood-18", 2440, 1220, "length", 5511),
        (8, "osb3-18", 2500, 1250, "length", 2874),
        (10, "45x145", 5100, "C24", "not said", 3055),
        (12, "45x95", 3000, "C18", "planed", 1071),
        (12, "45x95", 4000, "C18", "planed", 1428),
        (12, "45x95", 5000, "C18", "planed", 1785),
    },
    {
        7: "tongue and groove, whose edges are no straight joint",
        9: "no strength values for class GL24h",
        11: "no strength class: not structural timber",
    },
    {"strength", "tongue_groove"},
)
LISTS["es2"] = (
    """\
LISTA DE PRECIOS - P.V.P. IVA incluido
Artículo;Medida;Formato venta;Precio
Contrachapado abedul BB/BB;250 x 125 x 1,8 cm;Tablero;139,90 €
Contrachapado fenólico de abedul antideslizante;250 x 125 x 1,8;Tablero;129,90 €
Contrachapado de chopo;244 x 122 x 1,5 cm;Tablero;45,00 €
Tablero OSB 3 - 18 mm;250x125;Tablero;31,20 €
Tablero OSB 3 - 22 mm machihembrado;250x67,5;Tablero;24,20 €
Viga KVH C24 cepillada 10 x 20;4 m;Unidad;48,00 €
Viga KVH C24 cepillada 6 x 12 x 500;;Unidad;21,00 €
Palé de 20 listones C18 cepillados 45x95 3 m;;Palé;178,00 €
""",
    {},
    {
        (3, "birch-18", 2500, 1250, "length", 13990),
        (4, "birch-film-18", 2500, 1250, "length", 12990),
        (6, "osb3-18", 2500, 1250, "length", 3120),
        (8, "100x200", 4000, "C24", "planed", 4800),
        (9, "60x120", 5000, "C24", "planed", 2100),
        (10, "45x95", 3000, "C18", "planed", 890),
    },
    {
        5: "plywood of another or mixed wood: no strength values for it",
        7: "tongue and groove, whose edges are no straight joint",
    },
    {"tongue_groove"},
)
LISTS["nl"] = (
    """\
Prijslijst plaatmateriaal - prijzen excl. 21% BTW
Omschrijving;Afmeting;Prijs per m2;Prijs per stuk
Betonplex berken 18 mm;2500x1250;38,40;120,00
Multiplex berken BB/CP 18 mm;2440x1220;41,20;122,64
Underlayment vuren 18 mm T&G;2440x1220;12,10;36,02
Underlayment elliotis pine 18 mm;2440x1220;11,50;34,23
OSB-3 18 mm rechte kant;2440x1220;8,90;26,49
OSB-3 18 mm messing en groef 2 zijden;2440x590;9,20;13,24
Prijslijst hout - prijzen excl. BTW
Omschrijving;Lengte;Prijs per m1;Prijs per stuk
Vuren SLS C24 38x140 geschaafd;420 cm;3,10;13,02
Vuren balk C24 geschaafd 71x171;5,40 m;8,50;45,90
Ruw vuren C18 75x200;4,80;7,95;38,16
""",
    {"currency": "EUR"},
    {
        (3, "birch-film-18", 2500, 1250, "length", 14520),
        (4, "birch-18", 2440, 1220, "length", 14839),
        (6, "softwood-18", 2440, 1220, "length", 4142),
        (7, "osb3-18", 2440, 1220, "length", 3205),
        (11, "38x140", 4200, "C24", "planed", 1575),
        (12, "71x171", 5400, "C24", "planed", 5554),
        (13, "75x200", 4800, "C18", "sawn", 4617),
    },
    {
        5: "tongue and groove, whose edges are no straight joint",
        8: "tongue and groove, whose edges are no straight joint",
    },
    {"tongue_groove"},
)
LISTS["nl2"] = (
    """\
artikelnr,omschrijving,dikte,lengte,breedte,prijs excl. btw,prijs incl. btw 21%
10,Berken multiplex BB/BB,18,2500,1250,"€ 118,00","€ 142,78"
11,Betonplex berken,18,1250,2500,"€ 99,00","€ 119,79"
12,Okoumé multiplex,18,2500,1220,"€ 89,00","€ 107,69"
13,OSB 3 tong en groef,18,2440,590,"€ 12,00","€ 14,52"
14,OSB 3,22,2440,1220,"€ 27,00","€ 32,67"
20,Vuren balk C24 geschaafd,71,5100,146,"€ 29,00","€ 35,09"
21,Vuren SLS C18 geschaafd,38,3000,89,"€ 7,00","€ 8,47"
""",
    {"basis": "piece", "tongue_groove": "10"},
    {
        (2, "birch-18", 2500, 1250, "length", 14278),
        (3, "birch-film-18", 1250, 2500, "length", 11979),
        (5, "osb3-18", 2420, 570, "length", 1452),
        (6, "osb3-22", 2440, 1220, "length", 3267),
        (7, "71x146", 5100, "C24", "planed", 3509),
        (8, "38x89", 3000, "C18", "planed", 847),
    },
    {
        4: "plywood of another or mixed wood: no strength values for it",
    },
    set(),
)
LISTS["uk"] = (
    """\
Timber & Sheet price list - March 2026 - All prices ex VAT @ 20%
Code,Product,Unit,Price £
P1,18mm Birch Plywood BB/BB WBP 2440 x 1220,sheet,68.40
P2,18mm Structural Softwood Ply (Elliotis) 8x4,sheet,31.20
P3,18mm OSB3 2440x1220,each,19.95
P4,18mm T&G OSB3 2400x590,each,14.10
P5,18mm Phenolic film faced birch ply 8' x 4',each,79.00
P6,18mm Hardwood ply 8x4,each,44.00
T1,47x100 C16 Treated 4.8m,length,9.60
T2,4x2 C24 sawn carcassing,per m,2.65
T3,CLS 38 x 89 x 2.4m,each,4.20
T4,47 x 150 C24 eased edge KD 3.6/4.2/4.8m,m,3.90
T5,ex 50 x 100 PSE redwood,m,4.10
""",
    {"lengths": "4.8"},
    {
        (3, "birch-18", 2440, 1220, "length", 8208),
        (4, "softwood-18", 2438, 1219, "length", 3744),
        (5, "osb3-18", 2440, 1220, "length", 2394),
        (7, "birch-film-18", 2438, 1219, "length", 9480),
        (9, "47x100", 4800, "C16", "not said", 1152),
        (10, "47x100", 4800, "C24", "sawn", 1526),
        (12, "47x150", 3600, "C24", "planed", 1685),
        (12, "47x150", 4200, "C24", "planed", 1966),
        (12, "47x150", 4800, "C24", "planed", 2246),
    },
    {
        6: "tongue and groove, whose edges are no straight joint",
        8: "plywood of another or mixed wood: no strength values for it",
        11: "no strength class: not structural timber",
        13: "no strength class: not structural timber",
    },
    {"strength", "tongue_groove"},
)
LISTS["uk2"] = (
    """\
SKU	Description	Each	Pack Qty	Pack price
A1	18mm Birch ply 8x4x18mm	£82.00	30	£2,400.00
A2	OSB3 2440 x 1220 x 18mm	£22.50	40	£860.00
A3	OSB3 T and G 2400 x 600 x 18	£15.50	55
A4	6x2 C24 (47x147) 4.8m reg'd	£17.40
A5	4x2 C16 treated 3.0m	£7.20	96	£640.00
A6	3x2 CLS C16 63 x 38 x 2.4m	£3.60
VAT included at 20%
""",
    {},
    {
        (2, "birch-18", 2438, 1219, "length", 8200),
        (3, "osb3-18", 2440, 1220, "length", 2250),
        (5, "47x147", 4800, "C24", "not said", 1740),
        (6, "47x100", 3000, "C16", "sawn", 720),
        (7, "38x63", 2400, "C16", "planed", 360),
    },
    {
        4: "tongue and groove, whose edges are no straight joint",
    },
    {"tongue_groove"},
)
LISTS["us"] = (
    """\
Price list effective 3/2/2026,,,
SKU,Description,UOM,Price
1001,2x4x8 SPF #2,EA,4.28
1002,2x6-12 SPF No. 2 & BTR KD,EA,11.42
1003,2x4-92-5/8 SPF STUD,EA,3.98
1004,2x6x16' #2 SYP,EA,14.88
1005,4x4x8 PT GC,EA,12.98
2001,23/32 CAT plywood 4x8,EA,42.75
2002,3/4 4x8 Baltic birch 13-ply,SHT,129.00
2003,23/32 4x8 T&G OSB,SHT,31.98
2004,7/16 4x8 OSB sheathing,SHT,17.25
2005,18mm Baltic Birch 5x5,SHT,72.00
2006,3/4 CDX 4x8 Southern Pine,MSF,1280.00
2007,2x4x8 SPF #2 unit (294 pcs),UNIT,1200.00
2008,2x10x16 DF #2 & Btr,MBF,780.00
""",
    {
        "prices": "include-vat",
        "currency": "USD",
        "osb": "3",
        "plywood": "softwood",
        "strength": "C16,SPF No.2=C18,SP No.2=C18,DF-L No.2=C20",
    },
    {
        (8, "softwood-18", 1219, 2438, "width", 4275),
        (9, "birch-18", 1219, 2438, "width", 12900),
        (12, "birch-18", 1524, 1524, "length", 7200),
        (13, "softwood-18", 1219, 2438, "width", 4096),
        (3, "38x88", 2438, "C18", "planed", 428),
        (4, "38x139", 3657, "C18", "planed", 1142),
        (5, "38x88", 2352, "C16", "planed", 398),
        (6, "38x139", 4876, "C18", "planed", 1488),
        (14, "38x88", 2438, "C18", "planed", 408),
        (15, "38x234", 4876, "C20", "planed", 2080),
    },
    {
        7: "neither a sheet nor timber nor hardware that we know",
        10: "tongue and groove, whose edges are no straight joint",
        11: "no strength values for OSB/3 11.1 mm",
    },
    {"tongue_groove"},
)
LISTS["us2"] = (
    """\
ITEM,DESCRIPTION,PRICE,PER
2412,2x4x12 SPF #2&BTR KD-HT,605.00,MBF
2416,2X4X16 DF #2 GRN S4S,$11.48,PC
2610,"2"" x 6"" x 10' Hem-Fir No. 2",$10.99,EA
LVL,1-3/4x11-7/8 LVL 2.0E,$6.85,LF
P34,"3/4"" x 4' x 8' Birch plywood (actual 0.703"")",$89.00,EA
P12,"15/32"" 4x8 CDX SYP 3-ply",$26.50,EA
P18,18mm (.709) Baltic Birch plywood 60x60,$68.00,EA
Sales tax included.
""",
    {"strength": "SPF No.2=C18,DF-L No.2=C20,Hem-Fir No.2=C18"},
    {
        (6, "birch-18", 1219, 2438, "width", 8900),
        (8, "birch-18", 1524, 1524, "length", 6800),
        (2, "38x88", 3657, "C18", "planed", 484),
        (3, "38x88", 4876, "C20", "planed", 1148),
        (4, "38x139", 3048, "C18", "planed", 1099),
    },
    {
        5: "LVL: no strength values for it",
        7: "no strength values for rated plywood 11.9 mm",  # CDX is no European class
    },
    set(),
)
LISTS["ca"] = (
    """\
Lumber & panels - prices in CAD, taxes extra
Item,Size,Length,Price each
SPF #2 & Btr KD,2x6,8',9.27
SPF #2 & Btr KD,2x6,12',13.85
SPF #2 & Btr KD,2x6,16 ft,18.60
Douglas fir plywood select sheathing,3/4,4x8,74.95
Spruce plywood,5/8 T&G,4x8,61.00
OSB/3,23/32,4x8,39.50
Baltic birch plywood,18mm,5x5,69.00
""",
    {"vat": "13", "prices": "exclude-vat", "strength": "SPF No.2=C18"},
    {
        (6, "softwood-18", 1219, 2438, "width", 8469),
        (8, "osb3-18", 1219, 2438, "width", 4464),
        (9, "birch-18", 1524, 1524, "length", 7797),
        (3, "38x139", 2438, "C18", "planed", 1048),
        (4, "38x139", 3657, "C18", "planed", 1565),
        (5, "38x139", 4876, "C18", "planed", 2102),
    },
    {
        7: "tongue and groove, whose edges are no straight joint",
    },
    {"tongue_groove"},
)
LISTS["offer"] = (
    """\
Angebot Nr. 2026-0815 vom 12.03.2026
Pos.;Menge;ME;Bezeichnung;E-Preis;Rabatt;G-Preis
1;20;Stk;OSB/3 18 mm 2500x1250;28,90;;578,00
2;5;Stk;Siebdruckplatte Birke 18 mm 2500x1250;149,00;;745,00
3;60;lfm;KVH NSi C24 60x120 5,00 m;3,90;;234,00
Summe netto;;;;;;1.557,00
MwSt 19 %;;;;;;295,83
Gesamt;;;;;;1.852,83
""",
    {
        "currency": "EUR",
        "price_column": "E",
        "prices": "exclude-vat",
        "vat": "19",
        "basis": "piece",
    },
    {
        (3, "osb3-18", 2500, 1250, "length", 3439),
        (4, "birch-film-18", 2500, 1250, "length", 17731),
        (5, "60x120", 5000, "C24", "planed", 2321),
    },
    {
        6: "total",
        7: "tax",
        8: "total",
    },
    set(),
)
LISTS["offer2"] = (
    """\
Quotation 1234
Qty,Description,Unit price,Total
12,18mm Birch plywood 2440x1220,£68.00,£816.00
20,47x150 C24 4.8m KD,£18.50,£370.00
,,Subtotal,£1186.00
,,VAT 20%,£237.20
""",
    {"basis": "piece", "prices": "exclude-vat", "vat": "20"},
    {
        (3, "birch-18", 2440, 1220, "length", 8160),
        (4, "47x150", 4800, "C24", "not said", 2220),
    },
    {
        5: "total",
        6: "tax",
    },
    set(),
)
LISTS["mixed"] = (
    """\
Bez.;Maß;Preis EUR;Einheit
Birkensperrholz BB/BB;2,50 x 1,25 m, 18 mm;42,5;€/m²
Multiplexplatte Birke 9-lagig 12 mm;250 x 150 cm;33,10;qm
Multiplexplatte Birke 13-lagig;18,0 x 1250,0 x 2500,0;132,81;Platte
Siebdruckplatte Birke 12/15 mm;2500x1250;99,00;Stk
OSB 4 18 mm;2500/1250;12,90;m2
OSB/2 18 mm;2500/1250;7,90;m2
Bauholz C-24 gehobelt 8/16 cm;5 m;490,00;cbm
KVH S10/C24 60x140;6,0m;4,40;m
BSH-Balken C 24 100x200;;21,00;lfm
Kantholz NH C24 sägerau 100x100 mm;400 cm;5,10;lfm
Rahmenholz S10 TS gehobelt 45x70 mm;3.00 m;1,85;lfm
Dachlatte S10 30/50 4,00 m (10 Stk/Bund);;25,00;Bund
Dachlatte S10 30/50 4,00 m;Bund 10 Stk;0,62;lfm
Einschlagmuttern M10 100 Stk;;19,90;Pack
""",
    {"prices": "include-vat"},
    {
        (2, "birch-18", 2500, 1250, "length", 13281),
        (3, "birch-12", 2500, 1500, "length", 12413),
        (4, "birch-18", 1250, 2500, "length", 13281),
        (6, "osb3-18", 2500, 1250, "length", 4031),
        (8, "80x160", 5000, "C24", "planed", 3136),
        (9, "60x140", 6000, "C24", "planed", 2640),
        (10, "100x200", 6000, "C24", "not said", 12600),
        (11, "100x100", 4000, "C24", "sawn", 2040),
        (12, "45x70", 3000, "C24", "planed", 555),
        (13, "30x50", 4000, "C24", "not said", 250),
        (14, "30x50", 4000, "C24", "not said", 248),
    },
    {
        5: "no thickness that fits a sheet",
        7: "OSB/2: only OSB/3 and OSB/4 have strength values here",
    },
    set(),
)
LISTS["matrix"] = (
    """\
Birke Multiplex BB/BB, Preise in EUR/m² inkl. MwSt.;;;
Stärke;2500x1250;3000x1500;1525x1525
12;31,00;32,50;29,00
18;42,00;43,50;39,00
21;48,00;a.A.;
""",
    {},
    {
        (3, "birch-12", 2500, 1250, "length", 9688),
        (3, "birch-12", 3000, 1500, "length", 14625),
        (3, "birch-12", 1525, 1525, "length", 6744),
        (4, "birch-18", 2500, 1250, "length", 13125),
        (4, "birch-18", 3000, 1500, "length", 19575),
        (4, "birch-18", 1525, 1525, "length", 9070),
        (5, "birch-21", 2500, 1250, "length", 15000),
    },
    {
        5: "price on request: a.A.",
    },
    set(),
)
LISTS["fr3"] = (
    """\
Référence;Libellé;Long.;Larg.;Ép.;Prix/m² HT;Prix/panneau TTC;TVA
A;CP bouleau BB/BB;2,50;1,25;18;42,00;157,50;20%
B;CP bouleau filmé;250;125;18;38,00;142,50;20%
C;OSB 3;2500;1250;18;9,00;33,75;20%
D;Bois d'ossature C24 raboté 45x145 L 2m50;;;;;15,00;20%
E;Bois d'ossature C24 raboté 45x145 L=4.00ml;;;;;24,00;20%
F;Chevron C24 raboté 60x80 en 3 m 60;;;;;18,00;20%
""",
    {"currency": "EUR"},
    {
        (2, "birch-18", 2500, 1250, "length", 15750),
        (3, "birch-film-18", 2500, 1250, "length", 14250),
        (4, "osb3-18", 2500, 1250, "length", 3375),
        (5, "45x145", 2500, "C24", "planed", 1500),
        (6, "45x145", 4000, "C24", "planed", 2400),
        (7, "60x80", 3600, "C24", "planed", 1800),
    },
    {},
    set(),
)
LISTS["uk3"] = (
    """\
Product,Nominal,Finished,Length,£/m exc VAT,£ each inc VAT
C24 regularised,2 x 6,47 x 147mm,4.8m,3.50,20.16
C16 studwork CLS,4x2,38x89,2400mm,1.50,4.32
C24 eased edge 16'0",4x2,47x97,,2.10,
Birch ply,,18mm,8ft x 4ft,,79.00
Structural ply softwood CE2+,,18 mm,2440 x 1220,,34.00
""",
    {"vat": "20"},
    {
        (6, "softwood-18", 2440, 1220, "length", 3400),
        (2, "47x147", 4800, "C24", "planed", 2016),
        (3, "38x89", 2400, "C16", "planed", 432),
        (4, "47x97", 4876, "C24", "planed", 1229),
    },
    {
        5: "no length and width that fits a sheet",
    },
    set(),
)
LISTS["pl3"] = (
    """\
Asortyment;Wymiar;Cena za m2 netto;Cena za arkusz brutto
Sklejka brzozowa BB/CP;18x1250x2500;99,00;380,53
Sklejka brzozowa BB/CP;18x1525x1525;95,00;271,75
Sklejka foliowana brzozowa;21 x 1500 x 3000;110,00;608,85
Ceny w zł, VAT 23%
Asortyment;Przekrój;Długość;Cena za mb netto;Cena za szt brutto
KVH C24 Si;60x120;13 m;14,00;
Belka C24 strugana;8x16;4,0;;95,00
Drewno C24 strugane;4,5 x 14,5 cm;3600-4800;13,00;
""",
    {},
    {
        (2, "birch-18", 1250, 2500, "length", 38053),
        (3, "birch-18", 1525, 1525, "length", 27175),
        (4, "birch-film-21", 1500, 3000, "length", 60885),
        (7, "60x120", 13000, "C24", "planed", 22386),
        (8, "80x160", 4000, "C24", "planed", 9500),
    },
    {
        9: "lengths from 3600 to 4800 mm without a step",
    },
    {"length_step"},
)
LISTS["it3"] = (
    """\
Descrizione;Misure cm;Prezzo al mq;Prezzo al pezzo
Multistrato betulla spess. 1,8;250x125;€ 41,00;€ 128,13
Multistrato betulla mm 18;125x250;€ 41,00;€ 128,13
Multistrato fenolico betulla mm. 21;300x150;€ 52,00;€ 234,00
OSB/3 sp. 18;250x125;€ 9,50;€ 29,69
Travi C24 piallate 12x24;mt. 4;;€ 72,00
Morale abete C24 piallato cm 8x8;m 4;;€ 16,50
Prezzi IVA 22% inclusa
""",
    {},
    {
        (3, "birch-18", 1250, 2500, "length", 12813),
        (4, "birch-film-21", 3000, 1500, "length", 23400),
        (5, "osb3-18", 2500, 1250, "length", 2969),
        (6, "120x240", 4000, "C24", "planed", 7200),
        (7, "80x80", 4000, "C24", "planed", 1650),
    },
    {
        2: "no thickness that fits a sheet",
    },
    set(),
)
LISTS["nl3"] = (
    """\
Omschrijving;Prijs
Vuren geschaafd C24 44x145 mm lengte 360 cm;€ 14,95 per stuk incl. btw
Vuren geschaafd C24 44x145 mm lengte 4,20 mtr;€ 4,15 p/m1 incl. btw
Underlayment grenen 18mm 244x122cm;€ 36,50 /plaat incl. btw
Betonplex berken 18 mm 250x125;€ 41,00 p/m2 incl. btw
OSB 3 18mm 244 x 122;€ 26,75 per plaat incl. btw
Multiplex berken 18mm 1220 x 2440;119.-
""",
    {"prices": "include-vat"},
    {
        (4, "softwood-18", 2440, 1220, "length", 3650),
        (5, "birch-film-18", 2500, 1250, "length", 12813),
        (6, "osb3-18", 2440, 1220, "length", 2675),
        (2, "44x145", 3600, "C24", "planed", 1495),
        (3, "44x145", 4200, "C24", "planed", 1743),
    },
    {
        7: "what the price is for is not said",
    },
    {"basis"},
)
LISTS["es3"] = (
    """\
Descripción;Precio €/ud IVA incl.;Precio desde 10 ud;Precio pallet
Tablero contrachapado abedul 18mm 2500x1250mm;138,00;131,00;125,00
Tablero OSB3 18 mm 2,50x1,25;31,00;29,50;
Viga C24 cepillada 10x20x400;44,00;;
Viga C24 cepillada 100 x 200 mm largo 4.000 mm;44,00;;
Tablón pino C18 cepillado 7x20x4,80 m;36,00;;
""",
    {},
    {
        (2, "birch-18", 2500, 1250, "length", 13800),
        (3, "osb3-18", 2500, 1250, "length", 3100),
        (4, "100x200", 4000, "C24", "planed", 4400),
        (5, "100x200", 4000, "C24", "planed", 4400),
        (6, "70x200", 4800, "C18", "planed", 3600),
    },
    {},
    set(),
)
LISTS["us3"] = (
    """\
Sku,Product,Thick,Width,Length,Price $/sheet or $/pc
1,Birch plywood cabinet grade,3/4 in,48 in,96 in,79.00
2,Pine plywood CDX,15/32,4,8,24.00
3,SPF #2,2,4,8,4.10
4,SPF #2,2,6,16,12.60
5,DF #1 S4S,4,6,12,32.00
6,Southern pine #2 KDAT,2,12,20,48.00
""",
    {"strength": "SPF No.2=C18,SP No.2=C18,DF-L No.1=C24", "prices": "include-vat"},
    {
        (2, "birch-18", 2438, 1219, "length", 7900),
        (4, "38x88", 2438, "C18", "planed", 410),
        (5, "38x139", 4876, "C18", "planed", 1260),
        (6, "88x139", 3657, "C24", "planed", 3200),
        (7, "38x285", 6096, "C18", "planed", 4800),
    },
    {3: "no strength values for rated plywood 11.9 mm"},
    set(),
)
LISTS["quotes"] = (
    """\
"Artikel";"Preis"
"Birke Multiplex 18 mm 2500x1250 (1 Platte = 3,125 m²)";"131,25 € / Platte"
"Birke Multiplex 18 mm 2500x1250 (1 Platte = 3,125 m²)";"42,00 € / m²"
"OSB/3 22 mm 2500x1250 (Paket = 40 Platten)";"38,00 € / Platte"
"KVH C24 60x120, 5 m (5 lfm)";"19,50 € / Stück"
"KVH C24 80x160 auf Länge geschnitten";"6,40 € / lfm"
"KVH C24 80x120 bis 13 m";"4,80 € / lfm"
""",
    {"prices": "include-vat"},
    {
        (2, "birch-18", 2500, 1250, "length", 13125),
        (4, "osb3-22", 2500, 1250, "length", 3800),
        (5, "60x120", 5000, "C24", "planed", 1950),
    },
    {
        3: "the same offer as row 2",
        6: "no stock length",
        7: "no stock length",
    },
    {"lengths"},
)
LISTS["us-m"] = (
    """\
Item,Description,UOM,Price USD
1,2x4x8 SPF #2,M,605.00
2,4x8 23/32 CDX pine,M,980.00
3,2x6x10 SPF #2,LF,0.95
4,1x4x8 pine #2,EA,4.20
5,2x4x8 SPF #2 premium kiln dried (Bundle of 294),EA,4.05
""",
    {"prices": "include-vat", "strength": "SPF No.2=C18", "basis": "timber=mbf,sheet=msf"},
    {
        (3, "rated-ply-18", 1219, 2438, "width", 3136),
        (2, "38x88", 2438, "C18", "planed", 323),
        (4, "38x139", 3048, "C18", "planed", 950),
        (6, "38x88", 2438, "C18", "planed", 405),
    },
    {
        5: "no strength class: not structural timber",
    },
    {"strength"},
)
LISTS["ch-fr"] = (
    """\
Assortiment;Dimensions;Prix Fr. / m2;Prix Fr. / pce
Contreplaqué bouleau 18 mm;2500/1250;48.50;151.55
Contreplaqué bouleau filmé 21 mm;3000/1500;59.-;265.50
Lattes C24 rabotées 30/60;5.00 m;;7.90
TVA 8.1% non comprise. Livraison Fr. 80.-
""",
    {},
    {
        (2, "birch-18", 2500, 1250, "length", 16383),
        (3, "birch-film-21", 3000, 1500, "length", 28701),
        (4, "30x60", 5000, "C24", "not said", 854),
    },
    {},
    set(),
)
LISTS["de-pe"] = (
    """\
Artikelnr;Artikeltext;Preis;PE;ME;Währung;Rabattgruppe
4711;MULTIPLEX BIRKE BB/BB 18MM 2500X1250;4.250,00;100;QM;EUR;P1
4712;OSB3 18MM 2500X1250 UNGESCHL.;925,00;100;QM;EUR;P2
4713;KVH NSI C24 60X120 L=5000;3.450,00;1000;LFM;EUR;H1
4714;KVH NSI C24 60X120 L=6000;520,00;1;CBM;EUR;H1
""",
    {"prices": "include-vat", "discount": "ignore"},
    {
        (2, "birch-18", 2500, 1250, "length", 13281),
        (3, "osb3-18", 2500, 1250, "length", 2891),
        (4, "60x120", 5000, "C24", "planed", 1725),
        (5, "60x120", 6000, "C24", "planed", 2246),
    },
    {},
    set(),
)
LISTS["de-two"] = (
    """\
Holzart;Dim. mm;L in m;€/Stk.;€/lfm;€/m³
KVH C24 NSi;60 x 120;5;18,00;3,60;500
KVH C24 NSi;80 x 160;5;32,00;6,40;500
KVH C24 NSi;80 x 200;5;;8,00;500
KVH C24 NSi;100 x 200;5;;;500
Preise inkl. USt.
""",
    {},
    {
        (2, "60x120", 5000, "C24", "planed", 1800),
        (3, "80x160", 5000, "C24", "planed", 3200),
        (4, "80x200", 5000, "C24", "planed", 4000),
        (5, "100x200", 5000, "C24", "planed", 5000),
    },
    {},
    set(),
)
LISTS["wood-m2"] = (
    """\
Bezeichnung;Maße;Preis;Einheit
Rahmenholz C24 gehobelt 45x95;3 m;32,00;€/m² brutto
Schalbretter C24 sägerau 24x100;4 m;9,80;€/m² brutto
Siebdruck Birke 18mm;2,50m x 1,25m;59,-;€/m² brutto
Siebdruck Birke 9 mm;2,50m x 1,25m;32,-;€/lfm brutto
""",
    {},
    {
        (4, "birch-film-18", 2500, 1250, "length", 18438),
        (2, "45x95", 3000, "C24", "planed", 912),
        (3, "24x100", 4000, "C24", "sawn", 392),
    },
    {
        5: "priced per m, which can't be turned into a price per piece",
    },
    set(),
)
LISTS["it4"] = (
    """\
ELENCO PREZZI pannelli;;;
codice;articolo;formato;€/foglio +iva 22%
1;multistrato betulla mm18;cm 250x125;115,00
2;multistrato betulla mm 21;cm 300x150;195,00
3;OSB3 mm 18;cm 250x125;26,50
4;travetto abete C24 piallato mm 60x120;mt 5,00;21,50
5;travetto abete C24 piallato 60x120x5000;pz;21,50
""",
    {},
    {
        (3, "birch-18", 2500, 1250, "length", 14030),
        (4, "birch-21", 3000, 1500, "length", 23790),
        (5, "osb3-18", 2500, 1250, "length", 3233),
        (6, "60x120", 5000, "C24", "planed", 2623),
        (7, "60x120", 5000, "C24", "planed", 2623),
    },
    {},
    set(),
)
LISTS["pl4"] = (
    """\
Produkt;Wymiary [mm];Cena netto [zł/m3];Cena netto [zł/szt.]
Drewno konstrukcyjne C24 KVH NSi;60 x 120 x 6000;2200;95,04
Drewno konstrukcyjne C24 KVH NSi;80 x 160 x 6000;2200;168,96
Sklejka brzoza/brzoza;2500 x 1250 x 18;6500;365,63
Sklejka sucho-trwała brzozowa;2500 x 1250 x 18;5500;309,38
""",
    {"vat": "23"},
    {
        (4, "birch-18", 2500, 1250, "length", 44972),
        (5, "birch-18", 2500, 1250, "length", 38054),
        (2, "60x120", 6000, "C24", "planed", 11690),
        (3, "80x160", 6000, "C24", "planed", 20782),
    },
    {},
    set(),
)
LISTS["es4"] = (
    """\
Ref.;Descripción;Largo (mm);Ancho (mm);Grueso (mm);€/m²;€/ud
1;Contrachapado abedul B/BB;2500;1250;18;40,00;125,00
2;Contrachapado abedul;1525;1525;15;30,00;69,77
3;OSB3;2500;1250;22;9,60;30,00
4;Viga abeto C24 cepillada;5000;120;60;;18,50
5;Viga abeto C24 cepillada;4000;160;80;;26,10
IVA no incluido (21%)
""",
    {},
    {
        (2, "birch-18", 2500, 1250, "length", 15125),
        (3, "birch-15", 1525, 1525, "length", 8442),
        (4, "osb3-22", 2500, 1250, "length", 3630),
        (5, "60x120", 5000, "C24", "planed", 2239),
        (6, "80x160", 4000, "C24", "planed", 3158),
    },
    {},
    set(),
)
LISTS["uk4"] = (
    """\
Description,Per Metre,2.4m,3.0m,3.6m,4.8m
47x100 C24 sawn carcassing,2.50,6.00,7.50,9.00,12.00
47x150 C24 sawn carcassing,3.75,9.00,11.25,13.50,18.00
38x89 CLS C16,1.60,3.84,4.80,,
All prices GBP inc VAT
""",
    {},
    {
        (2, "47x100", 2400, "C24", "sawn", 600),
        (2, "47x100", 3000, "C24", "sawn", 750),
        (2, "47x100", 3600, "C24", "sawn", 900),
        (2, "47x100", 4800, "C24", "sawn", 1200),
        (3, "47x150", 2400, "C24", "sawn", 900),
        (3, "47x150", 3000, "C24", "sawn", 1125),
        (3, "47x150", 3600, "C24", "sawn", 1350),
        (3, "47x150", 4800, "C24", "sawn", 1800),
        (4, "38x89", 2400, "C16", "planed", 384),
        (4, "38x89", 3000, "C16", "planed", 480),
    },
    {},
    set(),
)
LISTS["nl4"] = (
    """\
Artikel;Dikte;Maat;Prijs p/st ex btw;Prijs p/st in btw
Multiplex berken;18 mm;250 x 125;110,00;133,10
Multiplex berken;18 mm;125 x 250;112,00;135,52
OSB3;18 mm;250 x 125;24,00;29,04
SLS C24 geschaafd;38x120;300;6,00;7,26
SLS C24 geschaafd;38x120;480;9,60;11,62
""",
    {"currency": "EUR", "vat": "21", "lengths": "3"},
    {
        (2, "birch-18", 2500, 1250, "length", 13310),
        (3, "birch-18", 1250, 2500, "length", 13552),
        (4, "osb3-18", 2500, 1250, "length", 2904),
        (5, "38x120", 3000, "C24", "planed", 726),  # 300 may be a depth: as answered
        (6, "38x120", 4800, "C24", "planed", 1162),  # no other size of a bar is 480
    },
    {},
    set(),
)
LISTS["price-in-name"] = (
    """\
Produkt;Preis
Birkensperrholz 18 mm, 2500 x 1250 mm (42,00 €/m²);131,25 €
OSB/3 18 mm 2500 x 1250 mm (Grundpreis 9,00 €/qm);28,13 €
KVH C24 60x120 5 m (3,60 €/lfm);18,00 €
""",
    {"basis": "piece", "prices": "include-vat"},
    {
        (2, "birch-18", 2500, 1250, "length", 13125),
        (3, "osb3-18", 2500, 1250, "length", 2813),
        (4, "60x120", 5000, "C24", "planed", 1800),
    },
    {},
    set(),
)


def offers_of(reading):
    sheets = {
        (o.row, o.panel, o.length_mm, o.width_mm, o.face_grain, o.price_cents)
        for o in reading.sheets
    }
    bars = {
        (
            o.row,
            f"{o.width_mm}x{o.depth_mm}",
            o.length_mm,
            o.strength_class,
            o.surface,
            o.price_cents,
        )
        for o in reading.timber
    }
    return sheets | bars


@pytest.mark.parametrize(
    ("title", "stance"),
    [
        ("Price ex works", ""),
        ("Preis ex Werk EUR", ""),
        ("cena z dostawą", ""),
        ("Preis inkl. Lieferung", ""),
        ("Precio sin transporte", ""),
        ("Prijs excl.", "net"),
        ("Prijs excl. per m2", "net"),
        ("Price ex", "net"),
        ("prijs incl €", "gross"),
        ("Precio con IVA", "gross"),
        ("Preis inkl. 19 % MwSt., ohne Fracht", "gross"),
    ],
)
def test_a_title_is_about_vat_only_where_it_says_so(title, stance):
    assert vat_in(title, True).stance == stance


def test_a_heading_under_the_price_is_still_a_heading(tmp_path):
    text = (
        "Preis EUR/m² inkl. MwSt.;Breite;Länge;Stärke;Artikel\n"
        "Sperrholz Fichte\n20,00;1250;2500;21;F21\nOSB/3\n10,00;1250;2500;22;O22\n"
    )
    found = {(one.row, one.panel, one.price_cents) for one in read(tmp_path, text, {}).sheets}
    assert found == {(3, "softwood-21", 6250), (5, "osb3-22", 3125)}


def test_an_abbreviation_in_another_title_says_nothing_of_vat(tmp_path):
    """*Bez.* is short for a name in German, and *bez* is *without* in Polish."""
    text = "Bez.;Einheit;Preis EUR\nSiebdruckplatte Birke 18 mm 2500x1250;Stk;149,00\n"
    assert {one.key for one in read(tmp_path, text, {}).questions} == {"prices"}


def read(tmp_path, text, answers):
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    return read_price_list(path, from_mapping(answers, "test"))


@pytest.mark.parametrize("name", LISTS)
def test_each_row_is_read_as_a_reader_would_or_left_out(name, tmp_path):
    text, answers, offers, out, questions = LISTS[name]
    reading = read(tmp_path, text, answers)
    assert not reading.blocking
    assert offers_of(reading) == offers
    assert {one.row: one.reason for one in reading.left_out if one.reason != "note"} == out
    assert {one.key for one in reading.questions} == questions


def cells_of(text):
    """Return a list's mark between cells and its rows; no rows for one without a mark."""
    counts = {mark: text.count(mark) for mark in "\t;,"}
    mark = next((mark for mark, count in counts.items() if count > 8), "")
    rows = list(csv.reader(io.StringIO(text), delimiter=mark)) if mark else []
    return mark, rows


TABLES = [
    name
    for name, case in LISTS.items()
    if name not in ("de-pdf-spaces", "uk3", "quotes") and cells_of(case[0])[1]
]
"""Lists with one mark between cells, in which no lone quotation mark stands for an inch."""


def as_number(cell, mark):
    """Return a cell as a spreadsheet would hold it: a plain number as a number."""
    plain = cell.replace(".", "").replace(",", ".") if mark == ";" else cell
    shape = r"\d{1,3}(?:\.\d{3})*(?:,\d+)?|\d+(?:,\d+)?" if mark == ";" else r"\d+(?:\.\d+)?"
    if not re.fullmatch(shape, cell) or (cell.startswith("0") and cell.isdecimal()):
        return cell
    return float(plain) if "." in plain else int(plain)


@pytest.mark.parametrize("ending", ["xlsx", "ods"])
@pytest.mark.parametrize("name", [name for name in TABLES if name != "ch-fr"])
def test_a_spreadsheet_of_the_same_list_offers_the_same(name, ending, tmp_path, make):
    text, answers, offers, _, _ = LISTS[name]
    mark, rows = cells_of(text)
    sheets = {"Liste": [[as_number(cell.strip(), mark) for cell in row] for row in rows]}
    path = tmp_path / f"list.{ending}"
    path.write_bytes(getattr(make, ending)(sheets))
    assert offers_of(read_price_list(path, from_mapping(answers, "test"))) == offers


@pytest.mark.parametrize("name", [name for name in TABLES if "price_column" not in LISTS[name][1]])
def test_the_order_of_the_columns_does_not_matter(name, tmp_path):
    text, answers, offers, _, _ = LISTS[name]
    mark, rows = cells_of(text)
    width = max(map(len, rows))
    turned = io.StringIO()
    csv.writer(turned, delimiter=mark, lineterminator="\n").writerows(
        [*reversed(row + [""] * (width - len(row)))] if sum(map(bool, row)) > 1 else row
        for row in rows
    )
    assert offers_of(read(tmp_path, turned.getvalue(), answers)) == offers


@pytest.mark.parametrize("name", TABLES)
def test_capitals_blanks_and_signs_do_not_matter(name, tmp_path):
    text, answers, offers, _, _ = LISTS[name]
    for other in (
        text.upper(),
        text.replace("\n", "\r\n"),
        text.replace(" ", "\u00a0"),
        text.replace("x", "×"),
        f"{text}Page 1\n",
    ):
        assert offers_of(read(tmp_path, other, answers)) == offers


@pytest.mark.parametrize("name", [name for name, case in LISTS.items() if case[1]])
def test_what_needed_an_answer_is_asked_without_it(name, tmp_path):
    text, answers, _, _, _ = LISTS[name]
    asked = {one.key for one in read(tmp_path, text, {}).questions}
    assert set(answers) & asked
