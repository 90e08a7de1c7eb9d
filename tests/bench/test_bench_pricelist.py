"""A list of 20,000 rows is read in under 5 s."""

import random
import subprocess
import sys

import pytest

ROWS = 20_000
MOST_SECONDS = 5.0

SCRIPT = """
import sys, time
from pathlib import Path
from steepwright.pricelist import read_price_list
started = time.process_time()
reading = read_price_list(Path(sys.argv[1]))
print(time.process_time() - started, len(reading.offers))
"""


def price_list():
    dice = random.Random(5)
    sheets = [
        ("Siebdruckplatte Birke", 18),
        ("Birkensperrholz", 15),
        ("OSB/3 Platte", 22),
        ("Fichtensperrholz", 21),
        ("MDF roh", 19),
        ("Türblatt", 40),
    ]
    lines = ["Art.-Nr.;Bezeichnung;Maße mm;Einheit;Preis EUR brutto;Bestand"]
    for number in range(ROWS):
        price = f"{dice.uniform(10, 90):.2f}".replace(".", ",")
        if number % 2:
            name, thick = dice.choice(sheets)
            lines.append(f"{number:05d};{name} {thick} mm, Charge {number};2500x1250;St;{price};12")
        else:
            size = dice.choice(["60x120", "80x160", "45x95"])
            lines.append(
                f"{number:05d};KVH C24 gehobelt {size} mm, 5,00 m, Los {number};;St;{price};"
            )
    return "\n".join(lines)


@pytest.mark.bench
def test_twenty_thousand_rows_take_under_five_seconds(tmp_path):
    path = tmp_path / "list.csv"
    path.write_text(price_list(), encoding="utf-8")
    runs = []
    for _ in range(3):
        done = subprocess.run(
            [sys.executable, "-c", SCRIPT, str(path)], capture_output=True, text=True, check=True
        )
        seconds, offers = done.stdout.split()
        assert int(offers) > ROWS // 2
        runs.append(float(seconds))
    assert min(runs) < MOST_SECONDS, runs
