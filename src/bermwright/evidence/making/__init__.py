"""Work by hand: setting out, forms and patterns, boards cut and nailed, loads lifted."""
