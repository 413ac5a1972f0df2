"""Parts beside the vaults: ends, openings, supports, posts, floors. A module for each kind of part."""
