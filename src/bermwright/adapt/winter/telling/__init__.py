"""What is said of a solved year: sentences, findings, working, and the data of its pictures."""
