"""The command line: parse, call app, print, exit code. Start reading at `main.py`.

Every command is one module in this folder with `add(commands)` and `run(args) -> int`, imported only
when it is called, so that `--help` answers at once.
"""
