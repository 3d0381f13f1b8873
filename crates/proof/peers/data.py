"""Writes the open data sets as CSV, each from a package that carries it.

data.py OUT WHEELS DEBS CRATES: folders, the last three holding an orange3 wheel, an r-cran-mlbench package laid open
and the crates laid open. What is not there is left out, and said. Columns: class, the fold in which the row is held out,
then one a character, c: for words and n: for numbers; an empty cell is unknown. Folds: zoo and penguins leave one out,
soybean and mushroom StratifiedKFold(5, shuffled, seed 0).
"""

import csv
import glob
import importlib.resources
import os
import sys
import warnings
import zipfile


from sklearn.model_selection import StratifiedKFold

# The word for what is unknown in one of the sources is read as such; the encoding that another does not state is ASCII.
warnings.filterwarnings("ignore", message="Unknown encoding")


def write(out, name, characters, classes, rows, folds=None):
    """Rows of words; without a number of folds each row is one of its own."""
    fold_of = list(range(len(rows)))
    if folds:
        split = StratifiedKFold(folds, shuffle=True, random_state=0).split(rows, classes)
        for fold, (_, held) in enumerate(split):
            for row in held:
                fold_of[row] = fold
    with open(os.path.join(out, name + ".csv"), "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["class", "fold"] + characters)
        writer.writerows([c, f] + r for c, f, r in zip(classes, fold_of, rows))
    print(f"{name}: {len(rows)} rows, {len(characters)} characters, {len(set(classes))} classes")


def zoo(out, wheels):
    """Forsyth 1990, UCI 111, CC BY 4.0; carried by PyPI orange3."""
    for wheel in glob.glob(os.path.join(wheels, "orange3-*.whl")):
        text = zipfile.ZipFile(wheel).read("Orange/datasets/zoo.tab").decode()
        lines = [line.split("\t") for line in text.splitlines() if line]
        header, rows = lines[0], lines[3:]
        characters = ["c:" + n for n in header[1:-1]]
        return write(out, "zoo", characters, [r[-1] for r in rows], [r[1:-1] for r in rows])
    print("zoo: left out, there is no orange3 wheel")


def soybean(out, debs):
    """Michalski and Chilausky 1980, UCI 90; carried by Debian r-cran-mlbench."""
    found = glob.glob(os.path.join(debs, "**", "Soybean.rda"), recursive=True)
    if not found:
        print("soybean: left out, there is no r-cran-mlbench (it comes by apt-get)")
        return
    import rdata

    table = rdata.read_rda(found[0])["Soybean"]
    rows = [["" if v is None or v != v else str(v) for v in row] for row in table.itertuples(index=False)]
    characters = ["c:" + n for n in table.columns[1:]]
    write(out, "soybean", characters, [r[0] for r in rows], [r[1:] for r in rows], 5)


def mushroom(out, crates):
    """UCI 73, CC BY 4.0; carried by the crate xgboost-sys among the examples of the library that it wraps.

    An unknown stalk root ("?") stays a state of its own, as is usual with this set.
    """
    found = glob.glob(os.path.join(crates, "**", "agaricus-lepiota.data"), recursive=True)
    if not found:
        print("mushroom: left out, the crate that carries it could not be fetched")
        return
    names = (
        "cap-shape cap-surface cap-color bruises odor gill-attachment gill-spacing gill-size gill-color "
        "stalk-shape stalk-root stalk-surface-above-ring stalk-surface-below-ring stalk-color-above-ring "
        "stalk-color-below-ring veil-type veil-color ring-number ring-type spore-print-color population habitat"
    ).split()
    with open(found[0]) as file:
        rows = [line.strip().split(",") for line in file if line.strip()]
    write(out, "mushroom", ["c:" + n for n in names], [r[0] for r in rows], [r[1:] for r in rows], 5)


def penguins(out):
    """Gorman, Williams and Fraser 2014, CC0; carried by PyPI palmerpenguins."""
    path = importlib.resources.files("palmerpenguins") / "data" / "penguins.csv"
    names = ["island", "bill_length_mm", "bill_depth_mm", "flipper_length_mm", "body_mass_g", "sex"]
    with path.open() as file:
        lines = list(csv.DictReader(file))
    rows = [[line[n].replace("NA", "") for n in names] for line in lines]
    characters = [("c:" if n in ("island", "sex") else "n:") + n for n in names]
    write(out, "penguins", characters, [line["species"] for line in lines], rows)


if __name__ == "__main__":
    OUT, WHEELS, DEBS, CRATES = sys.argv[1:5]
    os.makedirs(OUT, exist_ok=True)
    zoo(OUT, WHEELS)
    soybean(OUT, DEBS)
    mushroom(OUT, CRATES)
    penguins(OUT)
