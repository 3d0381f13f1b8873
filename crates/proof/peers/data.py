"""Writes the open data sets as plain CSV (first column the kind, empty = missing), each from a package that carries it.

data.py OUT WHEELS DEBS CRATES: folders, the last three holding an orange3 wheel, an r-cran-mlbench package laid open
and the crates laid open. What is not there is left out.
"""

import csv
import glob
import importlib.resources
import os
import sys
import zipfile


def write(out, name, header, rows):
    with open(os.path.join(out, name + ".csv"), "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)
    print(f"{name}: {len(rows)} rows, {len(header) - 1} questions")


def zoo(out, wheels):
    """Forsyth 1990, UCI 111, CC BY 4.0; carried by PyPI orange3."""
    for wheel in glob.glob(os.path.join(wheels, "orange3-*.whl")):
        text = zipfile.ZipFile(wheel).read("Orange/datasets/zoo.tab").decode()
        lines = [line.split("\t") for line in text.splitlines() if line]
        header, rows = lines[0], lines[3:]
        return write(out, "zoo", ["kind"] + header[1:-1], [[r[-1]] + r[1:-1] for r in rows])
    print("zoo: left out, no orange3 wheel")


def soybean(out, debs):
    """Michalski and Chilausky 1980, UCI 90; carried by Debian r-cran-mlbench."""
    found = glob.glob(os.path.join(debs, "**", "Soybean.rda"), recursive=True)
    if not found:
        print("soybean: left out, no r-cran-mlbench")
        return
    import rdata

    table = rdata.read_rda(found[0])["Soybean"]
    rows = [["" if v is None or v != v else str(v) for v in row] for row in table.itertuples(index=False)]
    write(out, "soybean", ["kind"] + list(table.columns[1:]), rows)


def mushroom(out, crates):
    """UCI 73, CC BY 4.0; carried by the crate xgboost-sys among the examples of the library it wraps."""
    found = glob.glob(os.path.join(crates, "**", "agaricus-lepiota.data"), recursive=True)
    if not found:
        print("mushroom: left out, no crate that carries it")
        return
    names = (
        "cap-shape cap-surface cap-color bruises odor gill-attachment gill-spacing gill-size gill-color "
        "stalk-shape stalk-root stalk-surface-above-ring stalk-surface-below-ring stalk-color-above-ring "
        "stalk-color-below-ring veil-type veil-color ring-number ring-type spore-print-color population habitat"
    ).split()
    with open(found[0]) as file:
        write(out, "mushroom", ["kind"] + names, [line.strip().split(",") for line in file if line.strip()])


def penguins(out):
    """Gorman, Williams and Fraser 2014, CC0; carried by PyPI palmerpenguins."""
    path = importlib.resources.files("palmerpenguins") / "data" / "penguins.csv"
    names = ["species", "island", "bill_length_mm", "bill_depth_mm", "flipper_length_mm", "body_mass_g", "sex"]
    with path.open() as file:
        rows = [[row[n].replace("NA", "") for n in names] for row in csv.DictReader(file)]
    write(out, "penguins", ["kind"] + names[1:], rows)


if __name__ == "__main__":
    OUT, WHEELS, DEBS, CRATES = sys.argv[1:5]
    os.makedirs(OUT, exist_ok=True)
    zoo(OUT, WHEELS)
    soybean(OUT, DEBS)
    mushroom(OUT, CRATES)
    penguins(OUT)
