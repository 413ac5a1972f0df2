"""Rules of the soil around a vault: what presses, what slides, what freezes, what is not known."""
