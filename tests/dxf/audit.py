"""Opens DXF files with a general library and tells of each what its audit finds and what lies on which layer.

Ends with 77 where the library is not installed.
"""

import sys
from collections import Counter

# This folder has a name of its own; nothing in it is to be imported.
sys.path = sys.path[1:]
try:
    import ezdxf
except ImportError:
    sys.exit(77)

for path in sys.argv[1:]:
    document = ezdxf.readfile(path)
    auditor = document.audit()
    faults = list(auditor.errors) + list(auditor.fixes)
    for fault in faults:
        print(path, fault.code, fault.message, file=sys.stderr)
    counts = Counter((entity.dxf.layer, entity.dxftype()) for entity in document.modelspace())
    parts = [f"{count} {kind} on {layer}" for (layer, kind), count in sorted(counts.items())]
    print("; ".join([f"{len(faults)} errors", *parts]))
