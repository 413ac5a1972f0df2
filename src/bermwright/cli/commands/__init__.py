"""One module for each command, named as it is typed: `add` declares its options, `run` does it.

Start reading at `check.py`. A new command also gets its line in `cli/main.py`.
"""
