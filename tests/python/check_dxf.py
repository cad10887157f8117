"""Audit DXF files with a strict foreign reader and print what it sees as JSON.

usage: check_dxf.py FILE...
Any error or fix makes the exit code 1; the numbers are for the caller to compare.
"""

import json
import math
import sys

import ezdxf
from ezdxf import recover
from ezdxf.entities import DXFEntity
from ezdxf.lldxf.encoding import decode_dxf_unicode
from ezdxf.math import bulge_to_arc


def signed_area(points):
    """Area of a chain of (x, y, bulge), arcs exact."""
    total = 0.0
    for (x0, y0, bulge), (x1, y1, _) in zip(points, points[1:] + points[:1]):
        total += (x0 * y1 - x1 * y0) / 2
        if bulge:
            _, _, _, radius = bulge_to_arc((x0, y0), (x1, y1), bulge)
            sweep = 4 * math.atan(abs(bulge))
            total += math.copysign(radius * radius * (sweep - math.sin(sweep)) / 2, bulge)
    return total


def box(points):
    """Exact bounding box of a closed chain of (x, y, bulge)."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    for (x0, y0, bulge), (x1, y1, _) in zip(points, points[1:] + points[:1]):
        if not bulge:
            continue
        centre, start, end, radius = bulge_to_arc((x0, y0), (x1, y1), bulge)
        for quarter in range(4):
            angle = quarter * math.pi / 2
            if (angle - start) % (2 * math.pi) <= (end - start) % (2 * math.pi):
                xs.append(centre.x + radius * math.cos(angle))
                ys.append(centre.y + radius * math.sin(angle))
    return [min(xs), min(ys), max(xs), max(ys)]


def entity_report(entity: DXFEntity):
    kind = entity.dxftype()
    report = {"kind": kind, "layer": entity.dxf.layer}
    if kind in ("LWPOLYLINE", "POLYLINE"):
        if kind == "LWPOLYLINE":
            points = [tuple(p) for p in entity.get_points("xyb")]
            closed = bool(entity.closed)
        else:
            points = [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in entity.vertices]
            closed = bool(entity.is_closed)
        pairs = list(zip(points, points[1:] + points[:1] if closed else points[1:]))
        report["closed"] = closed
        report["vertices"] = len(points)
        report["zero_length"] = sum(1 for a, b in pairs if a[:2] == b[:2])
        # Shortest piece, and least rise of a piece that is an arc.
        chords = [(math.dist(a[:2], b[:2]), a[2]) for a, b in pairs]
        report["shortest"] = min((c for c, _ in chords), default=0)
        report["least_rise"] = min((abs(bulge) * c / 2 for c, bulge in chords if bulge), default=1)
        if closed:
            report["area"] = signed_area(points)
            report["box"] = box(points)
    elif kind == "CIRCLE":
        centre, radius = entity.dxf.center, entity.dxf.radius
        report["closed"] = True
        report["radius"] = radius
        report["centre"] = [centre.x, centre.y]
        report["zero_length"] = 0
        report["area"] = math.pi * radius * radius
        report["box"] = [centre.x - radius, centre.y - radius, centre.x + radius, centre.y + radius]
    elif kind == "TEXT":
        report["text"] = decode_dxf_unicode(entity.plain_text())
        report["at"] = [*(entity.dxf.align_point if entity.dxf.halign else entity.dxf.insert)][:2]
        report["height"] = entity.dxf.height
        report["rotation"] = entity.dxf.rotation
    return report


def file_report(path):
    strict = ezdxf.readfile(path)
    doc, recovery = recover.readfile(path)
    audit = strict.audit()
    return {
        "version": strict.dxfversion,
        "insunits": strict.header.get("$INSUNITS"),
        "measurement": strict.header.get("$MEASUREMENT"),
        "errors": [e.message for a in (audit, recovery) for e in a.errors],
        "fixes": [e.message for a in (audit, recovery) for e in a.fixes],
        "layers": [layer.dxf.name for layer in strict.layers],
        "entities": [entity_report(e) for e in strict.modelspace()],
        "recovered": len(doc.modelspace()),
    }


def main():
    reports = [file_report(path) for path in sys.argv[1:]]
    json.dump(reports, sys.stdout)
    sys.exit(any(r["errors"] or r["fixes"] for r in reports))


main()
