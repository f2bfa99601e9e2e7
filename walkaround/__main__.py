"""`python -m walkaround` is the command line."""

import sys

from walkaround.cli import main

sys.exit(main())
