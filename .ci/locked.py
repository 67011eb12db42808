"""pip's report of a resolution becomes a list of requirements with hashes: `python locked.py REPORT`."""

from __future__ import annotations

import json
import platform
import re
import sys
from pathlib import Path


def main(report: Path) -> None:
    """Prints the lines; the project itself is left out, since it is installed from this folder."""
    found = json.loads(report.read_text(encoding="utf-8"))["install"]
    lines = []
    for item in found:
        name = re.sub(r"[-_.]+", "-", item["metadata"]["name"]).lower()
        hashes = item["download_info"].get("archive_info", {}).get("hashes", {})
        if name == "explainer":
            continue
        if "sha256" not in hashes:
            sys.exit(f"no hash for {name}")
        lines.append(f"{name}=={item['metadata']['version']} --hash=sha256:{hashes['sha256']}")
    sys.stdout.write(f"# for {platform.python_implementation()} {'.'.join(platform.python_version_tuple()[:2])}")
    sys.stdout.write(f" on {platform.system()} {platform.machine()}; renewed by: bash .ci/lock\n")
    sys.stdout.write("\n".join(sorted(lines)) + "\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
