"""What use cases need of the world outside: files, the clock, compiled kernels, the program itself."""
