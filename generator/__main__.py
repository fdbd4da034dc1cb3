"""`python -m generator`."""

import sys

from generator.cli import main

sys.exit(main())
