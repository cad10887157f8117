"""Measure the dark pixels of a screenshot and print their box as JSON.

usage: measure_png.py FILE X0 Y0 X1 Y1
Only the part of the picture between the corners is looked at. Edges are found to a fraction of a pixel: a
partly covered first or last column counts by how dark it is beside its inner neighbour.
"""

import json
import sys

import numpy
from PIL import Image


def span(profile):
    """Length of the dark run of a profile of darkness, in pixels."""
    inked = numpy.nonzero(profile > 0.02)[0]
    if len(inked) == 0:
        return None
    first, last = int(inked[0]), int(inked[-1])
    full = float(numpy.median(profile[first : last + 1]))
    ends = min(profile[first] / full, 1.0) + min(profile[last] / full, 1.0)
    return {"first": first, "last": last, "length": last - first - 1 + float(ends)}


def main():
    path, *corners = sys.argv[1:]
    x0, y0, x1, y1 = map(int, corners)
    picture = Image.open(path).convert("L")
    darkness = 1.0 - numpy.asarray(picture, dtype=float) / 255.0
    window = darkness[y0:y1, x0:x1]
    json.dump(
        {"size": picture.size, "x": span(window.max(axis=0)), "y": span(window.max(axis=1))},
        sys.stdout,
    )


main()
