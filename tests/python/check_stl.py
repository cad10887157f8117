"""Read STL files with a foreign mesh library and print what it sees as JSON.

usage: check_stl.py FILE...
"""

import json
import sys

import trimesh


def file_report(path):
    mesh = trimesh.load_mesh(path)
    return {
        "triangles": len(mesh.faces),
        "watertight": bool(mesh.is_watertight),
        "winding": bool(mesh.is_winding_consistent),
        "volume": float(mesh.volume),
        "area": float(mesh.area),
        "low": mesh.bounds[0].tolist(),
        "high": mesh.bounds[1].tolist(),
    }


json.dump([file_report(path) for path in sys.argv[1:]], sys.stdout)
