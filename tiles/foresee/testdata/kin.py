#!/usr/bin/python3
"""Makes kin.csv: what scikit-learn makes of the residues of 60 invented pairs.

Run it with Debian's python3-sklearn: /usr/bin/python3 kin.py > kin.csv

The singles, pairs and residues are drawn here; nothing of twodip is used. The
covariance is put together from scikit-learn's own kernels, each over columns
of its own: constants over one-hot columns for "same first", "same second" and
"same two glazes", and an RBF over the six CIELAB values. Of every pair the
table gives the prediction of a process fitted to all, and of one fitted anew
to all but the pair and its reverse.
"""
import csv
import sys

import numpy as np
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import RBF, ConstantKernel, DotProduct, Kernel, WhiteKernel


class Over(Kernel):
    """A kernel over some of the columns."""

    def __init__(self, kernel=None, columns=()):
        self.kernel = kernel
        self.columns = columns

    def __call__(self, x, y=None, eval_gradient=False):
        return self.kernel(x[:, self.columns], None if y is None else y[:, self.columns])

    def diag(self, x):
        return self.kernel.diag(x[:, self.columns])

    def is_stationary(self):
        return False


n, m = 12, 60
rng = np.random.default_rng(18)
singles = np.column_stack([rng.uniform(15, 95, n), rng.normal(0, 20, (n, 2))]).round(3)
every = [(i, j) for i in range(n) for j in range(n) if i != j]
pairs = [every[k] for k in rng.permutation(len(every))[:m]]
residues = rng.normal(1, 6, (m, 3)).round(3)


def features(pair):
    i, j = pair
    first, second, both = np.zeros(n), np.zeros(n), np.zeros(n * n)
    first[i], second[j], both[min(i, j) * n + max(i, j)] = 1, 1, 1
    return np.concatenate([first, second, both, singles[i], singles[j]])


def hot(variance, start, width):
    fixed = ConstantKernel(variance, "fixed") * DotProduct(0, "fixed")
    return Over(fixed, list(range(start, start + width)))


kernel = (
    hot(1.0, 0, n)
    + hot(5.0, n, n)
    + hot(1.5, 2 * n, n * n)
    + Over(ConstantKernel(15.0, "fixed") * RBF(np.sqrt(1300), "fixed"), list(range(2 * n + n * n, 2 * n + n * n + 6)))
    + WhiteKernel(16.0, "fixed")
)
x = np.array([features(p) for p in pairs])


def predict(rows, at):
    """The mean, drawn toward none by m / (m + 8), and a process about it."""
    y = residues[rows]
    mean = y.sum(axis=0) / (len(rows) + 8)
    model = GaussianProcessRegressor(kernel, alpha=0, optimizer=None).fit(x[rows], y - mean)
    return mean + model.predict(x[at])


everything = np.arange(m)
fitted = predict(everything, everything)
out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("first second first_l first_a first_b second_l second_a second_b l a b fit_l fit_a fit_b out_l out_a out_b".split())
for k, (i, j) in enumerate(pairs):
    rest = np.array([r for r in everything if set(pairs[r]) != {i, j}])
    left = predict(rest, [k])[0]
    out.writerow([i, j, *singles[i], *singles[j], *residues[k], *(f"{v:.9f}" for v in (*fitted[k], *left))])
