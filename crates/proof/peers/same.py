"""Posteriors of CategoricalNB and GaussianNB beside the engine's: same.py DATA FOLDER (writes FOLDER/peer.csv)."""

import sys
from pathlib import Path

import numpy as np
import pandas as pd
from sklearn.naive_bayes import CategoricalNB, GaussianNB

data, folder = Path(sys.argv[1]), Path(sys.argv[2])
lines = []
for path in sorted(folder.glob("*-*.csv")):
    frame = pd.read_csv(data / (path.stem.split("-")[0] + ".csv"), dtype=str, keep_default_na=False)
    words = [c for c in frame.columns[2:] if c.startswith("c:")]
    sizes = [c for c in frame.columns[2:] if c.startswith("n:")]
    y = np.unique(frame["class"], return_inverse=True)[1]
    used = sizes or words
    complete = (frame[used] != "").all(axis=1).to_numpy()
    if sizes:
        x = frame.loc[complete, sizes].to_numpy(dtype=float)
        model = GaussianNB(var_smoothing=0.0)
    else:
        codes = [sorted(set(frame[c]) - {""}) for c in words]
        x = np.array([[k.index(v) for k, v in zip(codes, row)] for row in frame.loc[complete, words].to_numpy()])
        model = CategoricalNB(alpha=0.5, min_categories=[len(k) for k in codes])
    theirs = model.fit(x, y[complete]).predict_proba(x)
    ours = pd.read_csv(path, header=None).to_numpy()
    lines.append(f"{path.name},{np.abs(theirs - ours).max():.3e},{len(x)}")
(folder / "peer.csv").write_text("\n".join(lines) + "\n")
