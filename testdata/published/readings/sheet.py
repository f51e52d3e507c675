# A sheet of 1,000 ropes of 60 stations through the reference scan (scan.py), for the
# time it takes. The standardised differences are drawn beforehand. Prints seconds of
# processor time, median of three, and a sum that the scans come to.
import time
import numpy as np
from scan import scan

z = np.random.default_rng(1).standard_normal((1000, 60))
took = []
for _ in range(3):
    begin = time.process_time()
    total = sum(scan(row, 12)["shift"]["one_sided"]["stat"] for row in z)
    took.append(time.process_time() - begin)
print(f"{sorted(took)[1]:.4f} {total:.3f}")
