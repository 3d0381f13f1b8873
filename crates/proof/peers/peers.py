"""The peers: decision trees and naive Bayes of scikit-learn on the rows that the engine is asked about.

Usage: peers.py DATA ROWS OUT. DATA holds NAME.csv, ROWS holds NAME-WRONG.csv (row, then what was told: a state's index
or a number, empty where unknown). Writes OUT/NAME-WRONG.csv: peer, budget (0: all), accuracy, log loss, Brier score.
A budget counts distinct characters for a cut path (kind to the tree: a second look at a number is free) and splits for
a tree that was grown to that depth. A state that is unknown is no state at all for a tree (its columns are all 0), and for
naive Bayes either the commonest state of the training rows or a state of its own: both are tried.
"""

import sys
import warnings
from pathlib import Path

import numpy as np
import pandas as pd
from sklearn.metrics import mutual_info_score
from sklearn.naive_bayes import CategoricalNB, GaussianNB
from sklearn.tree import DecisionTreeClassifier

warnings.filterwarnings("ignore")
BUDGETS = [3, 5, 8, 12]


class Table:
    """A table as numbers, with its folds."""

    def __init__(self, path):
        frame = pd.read_csv(path, dtype=str, keep_default_na=False)
        classes = sorted(set(frame["class"]))
        self.y = np.array([classes.index(c) for c in frame["class"]])
        self.fold = frame["fold"].astype(int).to_numpy()
        self.classes = len(classes)
        self.numeric, self.states, columns = [], [], []
        for title in frame.columns[2:]:
            cells = frame[title]
            words = sorted(set(cells) - {""})
            self.numeric.append(title.startswith("n:"))
            self.states.append(len(words))
            code = float if title.startswith("n:") else words.index
            columns.append([np.nan if c == "" else code(c) for c in cells])
        self.x = np.array(columns, dtype=float).T
        self.numeric = np.array(self.numeric)

    def one_hot(self, x, middle):
        """Columns of 0 and 1 for states, numbers as they are; which character each column is of."""
        columns, of = [], []
        for c in range(x.shape[1]):
            if self.numeric[c]:
                columns.append(np.where(np.isnan(x[:, c]), middle[c], x[:, c]))
                of.append(c)
            else:
                for s in range(self.states[c]):
                    columns.append((x[:, c] == s).astype(float))
                    of.append(c)
        return np.array(columns).T, np.array(of)


def cut(tree, of, x, budget):
    """P(class) at the node where a path has used up its budget of distinct characters."""
    t = tree.tree_
    node = np.zeros(len(x), dtype=int)
    used = np.zeros(len(x), dtype=np.int64)
    bits = np.int64(1) << of.astype(np.int64)
    while True:
        feature = t.feature[node]
        inner = feature >= 0
        then = used | np.where(inner, bits[np.maximum(feature, 0)], 0)
        count = np.array([bin(v).count("1") for v in np.unique(then)])[np.unique(then, return_inverse=True)[1]]
        go = inner & (count <= budget)
        if not go.any():
            break
        left = x[np.arange(len(x)), np.maximum(feature, 0)].astype(np.float32) <= t.threshold[node]
        node = np.where(go, np.where(left, t.children_left[node], t.children_right[node]), node)
        used = np.where(go, then, used)
    p = t.value[node][:, 0, :]
    return p / p.sum(axis=1, keepdims=True)


def bayes(table, train, y, test, chosen, own_state):
    """ln P(class | the chosen characters), not yet summing to 1: CategoricalNB and GaussianNB, multiplied."""
    words = [c for c in chosen if not table.numeric[c]]
    sizes = [c for c in chosen if table.numeric[c]]
    prior = np.log(np.bincount(y, minlength=table.classes) / len(y))
    total = np.tile(prior, (len(test), 1))
    if words:
        def whole(x):
            x = x[:, words].copy()
            for i, c in enumerate(words):
                seen = train[:, c][~np.isnan(train[:, c])].astype(int)
                fill = table.states[c] if own_state else (np.bincount(seen).argmax() if len(seen) else 0)
                x[np.isnan(x[:, i]), i] = fill
            return x.astype(int)
        k = [table.states[c] + (1 if own_state else 0) for c in words]
        total += CategoricalNB(alpha=0.5, min_categories=k).fit(whole(train), y).predict_joint_log_proba(whole(test)) - prior
    if sizes:
        middle = np.nanmean(train[:, sizes], axis=0)
        fill = lambda x: np.where(np.isnan(x[:, sizes]), middle, x[:, sizes])
        total += GaussianNB(var_smoothing=1e-9).fit(fill(train), y).predict_joint_log_proba(fill(test)) - prior
    total -= total.max(axis=1, keepdims=True)
    p = np.exp(total)
    return p / p.sum(axis=1, keepdims=True)


def ranking(table, x, y):
    """Characters by what each tells of the class on the training rows, most first."""
    tells = []
    for c in range(x.shape[1]):
        if table.numeric[c]:
            ok = ~np.isnan(x[:, c])
            edges = np.quantile(x[ok, c], np.arange(1, 8) / 8)
            tells.append(mutual_info_score(np.digitize(x[ok, c], edges), y[ok]) * ok.mean())
        else:
            tells.append(mutual_info_score(np.nan_to_num(x[:, c], nan=-1), y))
    return np.argsort(-np.array(tells), kind="stable")


def main():
    data, rows, out = Path(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3])
    out.mkdir(parents=True, exist_ok=True)
    for path in sorted(data.glob("*.csv")):
        table = Table(path)
        tests = {p.stem: pd.read_csv(p).to_numpy(dtype=float) for p in sorted(rows.glob(f"{path.stem}-*.csv"))}
        found = {stem: {} for stem in tests}
        for fold in range(table.fold.max() + 1):
            train = table.fold != fold
            x, y = table.x[train], table.y[train]
            middle = np.array([np.nanmean(x[:, c]) if n else 0 for c, n in enumerate(table.numeric)])
            hot, of = table.one_hot(x, middle)
            full = {c: DecisionTreeClassifier(criterion=c, random_state=0).fit(hot, y) for c in ["entropy", "gini"]}
            deep = {
                (c, b): DecisionTreeClassifier(criterion=c, max_depth=b, random_state=0).fit(hot, y)
                for c in ["entropy", "gini"]
                for b in BUDGETS
            }
            order = ranking(table, x, y)
            for stem, told in tests.items():
                index = told[:, 0].astype(int)
                held = table.fold[index] == fold
                if not held.any():
                    continue
                test, truth = told[held, 1:], table.y[index[held]]
                hot_test, _ = table.one_hot(test, middle)
                wide = lambda p, classes: p if p.shape[1] == table.classes else place(p, classes, table.classes)
                def add(peer, budget, p):
                    found[stem].setdefault((peer, budget), []).append((p, truth))
                for c, tree in full.items():
                    add(f"tree, {c}", 0, wide(tree.predict_proba(hot_test), tree.classes_))
                    for b in BUDGETS:
                        add(f"tree, {c}, path cut", b, wide(cut(tree, of, hot_test, b), tree.classes_))
                        add(f"tree, {c}, grown to depth", b, wide(deep[c, b].predict_proba(hot_test), tree.classes_))
                for own in [False, True]:
                    name = "naive Bayes, unknown a state" if own else "naive Bayes"
                    for b in BUDGETS + [0]:
                        chosen = order[: b or len(order)]
                        add(name, b, bayes(table, x, y, test, list(chosen), own))
        for stem, peers in found.items():
            with open(out / f"{stem}.csv", "w") as file:
                print("peer,budget,accuracy,log_loss,brier", file=file)
                for (peer, budget), parts in peers.items():
                    p = np.vstack([part[0] for part in parts])
                    t = np.concatenate([part[1] for part in parts])
                    right = p[np.arange(len(t)), t]
                    brier = ((p - np.eye(table.classes)[t]) ** 2).sum(axis=1).mean()
                    accuracy = (p.argmax(axis=1) == t).mean()
                    loss = -np.log(np.maximum(right, 1e-15)).mean()
                    print(f'"{peer}",{budget},{accuracy:.6f},{loss:.6f},{brier:.6f}', file=file)


def place(p, classes, n):
    """Columns of the classes that were seen in training among those of all."""
    whole = np.zeros((len(p), n))
    whole[:, classes] = p
    return whole


main()
