"""The job of a delivery run as a plain script: read a CSV, find where the bench stood still, fit a line by weighted least squares.

Invented data, for comparison of speed alone. It does what such scripts do and no more: no evidence is kept, calibration
errors are taken for noise that averages out, nothing is refused. Usage: slopes.py FILE
"""

import sys

import numpy as np
import pandas as pd
from scipy import linalg, ndimage, stats

LEAST_HOLD_S = 4.0
LEAD_S = 1.0  # left out after a change
WINDOW = 500  # readings: half a second

table = pd.read_csv(sys.argv[1])
time_s = table["elapsed [s]"].to_numpy()
speed_rev_per_s = table["speed [r/min]"].to_numpy() / 60
flow_m3_per_s = table["flow [l/min]"].to_numpy() / 6e4
rise_pa = (table["deliveryPressure [bar(g)]"] + 1.01325 - table["suctionPressure [bar(a)]"]).to_numpy() * 1e5
oil_k = table["oilTemperature [degC]"].to_numpy() + 273.15

# Still: the rolling mean a second later is what it is now.
still = np.ones(len(time_s), dtype=bool)
for values, limit in (
    (speed_rev_per_s, 0.002 * speed_rev_per_s.max()),
    (flow_m3_per_s, 0.015 * flow_m3_per_s.max()),
    (rise_pa, 3e3),
    (oil_k, 0.5),
):
    mean = pd.Series(values).rolling(WINDOW, min_periods=1).mean().to_numpy()
    still[2 * WINDOW :] &= np.abs(mean[2 * WINDOW :] - mean[: -2 * WINDOW]) < limit

stretch, count = ndimage.label(still)
begins = [found[0].start for found in ndimage.find_objects(stretch)]
ends = [found[0].stop for found in ndimage.find_objects(stretch)]
holds = [
    (np.searchsorted(time_s, time_s[begin] + LEAD_S), end)
    for begin, end in zip(begins, ends)
    if time_s[end - 1] - time_s[begin] >= LEAST_HOLD_S + LEAD_S
]

# q = V n - C dp at one viscosity.
design = np.array([[speed_rev_per_s[a:b].mean(), -rise_pa[a:b].mean()] for a, b in holds])
flow = np.array([flow_m3_per_s[a:b].mean() for a, b in holds])
deviation = np.array([flow_m3_per_s[a:b].std(ddof=1) / np.sqrt(b - a) for a, b in holds])
weighted = design / deviation[:, None]
coefficients, *_ = linalg.lstsq(weighted, flow / deviation)
freedom = len(flow) - 2
chi_square = (((flow - design @ coefficients) / deviation) ** 2).sum() / freedom
half_width = stats.t.ppf(0.975, freedom) * np.sqrt(np.diag(linalg.inv(weighted.T @ weighted)) * chi_square)
print(f"{len(holds)} holds, V = {coefficients[0] * 1e6:.4f} +- {half_width[0] * 1e6:.6f} cm3/rev")
