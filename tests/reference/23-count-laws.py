"""Poisson and negative binomial probabilities at 40 to 60 digits: writes 23-count-laws.json beside it.

Own code; needs Python 3 and mpmath 1.3. Tails by summation of the probabilities, far counts by
mpmath's incomplete beta function. No code of the project under test is used.
"""
import json
import os

import mpmath as mp

LAWS = [  # size (None = Poisson), mean, count
    (None, 12, 14), (None, 1000, 1041), (None, 10**6, 10**6), (None, 10**6, 1003000),
    (None, 10**6, 990000), (None, 10**9, 10**9), (None, 0.5, 3), (None, 20, 60), (None, 12, 0),
    (None, 1e-8, 0), (None, 1e-8, 1), (2.5, 12, 16), (1e6, 12, 14), (0.05, 2, 44),
    (0.2, 1e6, 3000000), (3, 1e6, 2000000), (0.001, 5, 100), (1e-6, 3, 10), (0.288, 14, 86),
    (0.05, 2, 0), (0.05, 2, 2), (0.2, 1e6, 500000), (0.2, 1e6, 1000), (1e-3, 1e6, 10**8),
    (0.7, 4, 11), (3, 12, 27), (0.01, 1, 1), (1e10, 12, 14), (1e13, 12, 14), (5, 0.4, 0),
    (2, 1e-9, 0), (2, 1e-9, 1), (100, 1e9, 10**9),
]


def poisson(mean, k):
    mp.mp.dps = 40
    mean = mp.mpf(mean)
    pmf = mp.exp(k * mp.log(mean) - mean - mp.loggamma(k + 1))
    up = k + 1 > mean
    total, j = mp.mpf(0), (k + 1 if up else k)
    term = pmf * mean / (k + 1) if up else pmf
    while j >= 0 and term > total * mp.mpf(10) ** -25:
        total += term
        term = term * mean / (j + 1) if up else term * mp.mpf(j) / mean
        j += 1 if up else -1
    return (pmf, 1 - total, total) if up else (pmf, total, 1 - total)


def negative_binomial(size, mean, k):
    mp.mp.dps = 60
    size, mean = mp.mpf(size), mp.mpf(mean)
    p, q = size / (size + mean), mean / (size + mean)
    log = mp.loggamma(k + size) - mp.loggamma(size) - mp.loggamma(k + 1)
    pmf = mp.exp(log + size * mp.log(p) + k * mp.log(q))
    if k < 2000:
        term, cdf = mp.exp(size * mp.log(p)), mp.mpf(0)
        for j in range(k + 1):
            cdf += term
            term *= q * (j + size) / (j + 1)
        return pmf, cdf, 1 - cdf
    tail = mp.betainc(k + 1, size, 0, q, regularized=True)
    return pmf, 1 - tail, tail


cases = []
for size, mean, k in LAWS:
    values = poisson(mean, k) if size is None else negative_binomial(size, mean, k)
    name = f"poisson-{mean:g}" if size is None else f"nb-{size:g}-{mean:g}"
    cases.append({
        "id": f"{name}-at-{k}",
        "description": "P(count = k), P(count <= k), P(count > k)",
        "inputs": {"mean": mean, "k": k} if size is None else {"mean": mean, "size": size, "k": k},
        "expected": dict(zip(("pmf", "cdf", "tail"), (float(mp.nstr(v, 17)) for v in values))),
        "tolerance": {"rel": 1e-10, "abs": 1e-14},
        "provenance": f"mpmath {mp.__version__}, 40 to 60 digits, this script",
    })
out = {
    "topic": "23-count-laws",
    "source": "NIST DLMF 8.17.5, 8.4.10; definitions of the laws",
    "generatedWith": f"Python, mpmath {mp.__version__}",
    "cases": cases,
}
path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "23-count-laws.json")
with open(path, "w") as file:
    json.dump(out, file, indent=1)
    file.write("\n")
