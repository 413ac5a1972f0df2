"""`python -m bermwright`."""

import sys

from bermwright.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
