"""The last line of .ci/run, as pytest closes: its own tests, and each other step as one.

Arguments: pytest's junit file, whether its step failed (0 or 1), the other steps passed and failed, seconds.
"""

import sys
from pathlib import Path
from xml.etree import ElementTree


def main(junit: str, tests_failed: int, steps_passed: int, steps_failed: int, seconds: int) -> None:
    """Print it."""
    tests = failed = skipped = 0
    if Path(junit).exists():
        for suite in ElementTree.parse(junit).iter("testsuite"):
            tests += int(suite.get("tests", 0))
            failed += int(suite.get("failures", 0)) + int(suite.get("errors", 0))
            skipped += int(suite.get("skipped", 0))
    counts = {
        "failed": max(failed, tests_failed) + steps_failed,  # a run without a failed test may still have failed
        "passed": tests - failed - skipped + steps_passed,
        "skipped": skipped,
    }
    said = ", ".join(f"{count} {word}" for word, count in counts.items() if count)
    print(f"===== {said} in {seconds:.2f}s =====")


if __name__ == "__main__":
    main(sys.argv[1], *map(int, sys.argv[2:]))
