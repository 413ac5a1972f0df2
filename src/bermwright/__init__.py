"""bermwright: from one plain house file to a site book for earth-sheltered vaults.

Start reading at `ARCHITECTURE.md`; the folders below are its layers.
"""

__version__ = "0.1.0"
