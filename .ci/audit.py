"""Whether a version that CI installs has a known weakness.

Run: .venv/bin/pip install -e '.[audit]' && .venv/bin/python .ci/audit.py
The list of weaknesses is asked of the package index. Where that cannot be reached, or does not know
a package, nothing is known of it: that is said, and is no sign of soundness. Status 1 for a
weakness, 3 where some package was not audited, 0 where all were and none has one.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

WANTED = Path(__file__).with_name("requirements.txt")
COMMAND = [
    sys.executable, "-m", "pip_audit", "--requirement", str(WANTED), "--no-deps", "--disable-pip",
    "--format", "json", "--progress-spinner", "off",
]  # fmt: skip
WEAK, UNKNOWN = 1, 3


def findings(found: list[dict[str, Any]]) -> tuple[list[str], list[str]]:
    """A line for each weakness, and the names of the packages of which nothing is known."""
    weak = [
        f"{each['name']} {each['version']}: {one['id']}"
        + (f", mended in {', '.join(one['fix_versions'])}" if one["fix_versions"] else "")
        for each in found
        for one in each.get("vulns", ())
    ]
    return weak, [each["name"] for each in found if "skip_reason" in each]


def main() -> int:
    """Ask, and say what came of it."""
    asked = subprocess.run(COMMAND, capture_output=True, text=True, check=False)
    try:
        found = json.loads(asked.stdout)["dependencies"]
    except (ValueError, KeyError, TypeError):
        sys.stdout.write("Nothing was audited: the list of weaknesses could not be read.\n")
        return UNKNOWN
    weak, unknown = findings(found)
    sys.stdout.write("".join(f"{line}\n" for line in weak))
    sys.stdout.write(f"{len(found) - len(unknown)} of {len(found)} packages were audited, ")
    sys.stdout.write(f"{len(weak)} weaknesses found.\n")
    return WEAK if weak else UNKNOWN if unknown else 0


if __name__ == "__main__":
    sys.exit(main())
