"""Ten thousand files of each kind from strangers: no traceback, no wait, nothing written outside.

What a stranger does is drawn by hypothesis anew in each run; what fails is shown with the file.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from support.taking import kinds, offer

pytestmark = pytest.mark.soak

OFFERED = 10_000
MOST_S = 1.0


@pytest.mark.parametrize("kind", kinds())
def test_ten_thousand_files_are_refused_in_a_sentence_or_can_be_used(
    kind: str, tmp_path: Path
) -> None:
    print(f"\n{offer(kind, tmp_path, OFFERED, MOST_S)}")
