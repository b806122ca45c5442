"""`python -m ringwright`."""

from __future__ import annotations

import sys

from ringwright import main

sys.exit(main())
