"""Messages before a language was chosen: whoever uses the package alone reads English."""

from __future__ import annotations

import subprocess
import sys

ALONE = """
from walkaround.base.errors import InputError
from walkaround.brakes import stroke_limit_in
from walkaround.vehicle import vin_problem
print(vin_problem("1M8GDM9A_KP042788"))
try:
    stroke_limit_in("clamp", "99")
except InputError as error:
    print(error)
"""


def test_a_message_reads_as_english_where_no_language_was_chosen() -> None:
    done = subprocess.run([sys.executable, "-c", ALONE], capture_output=True, text=True, check=True)
    vin, stroke = done.stdout.splitlines()
    assert "a VIN has digits and letters other than I, O and Q" in vin
    assert "no stroke table lists for a clamp chamber" in stroke
