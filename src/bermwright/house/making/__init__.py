"""Parts that are made by hand after a drawing: domes, sheets that are cut, vaults that meet."""
