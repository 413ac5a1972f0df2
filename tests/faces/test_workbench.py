"""The workbench as a process of its own: it starts, serves, follows an edit, and ends without a trace."""

from __future__ import annotations

import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path

import pytest

from bermwright.cli.main import main

LARCH_BANK = Path(__file__).resolve().parent.parent.parent / "examples" / "larch-bank.toml"


@contextmanager
def opened(*words):
    """A running workbench: its process, its port and the key that it printed."""
    process = subprocess.Popen(
        [sys.executable, "-m", "bermwright", "open", "--no-browser", *map(str, words)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
    )
    try:
        lines = []
        for line in process.stdout:
            lines.append(line)
            if "Ctrl-C ends it" in line:
                break
        said = "".join(lines)
        found = re.search(r"http://127\.0\.0\.1:(\d+)/\?key=(\S+)", said)
        assert found, said
        yield process, int(found[1]), found[2], said
    finally:
        if process.poll() is None:
            process.kill()
        process.stdout.close()
        process.wait()


def asked(port, path, headers=None):
    """One answer; the server may still be on its way up."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request("GET", path, headers=headers or {})
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer, body


def children(process):
    """Processes that the server has made."""
    path = Path(f"/proc/{process.pid}/task/{process.pid}/children")
    return [int(pid) for pid in path.read_text(encoding="ascii").split()] if path.exists() else []


def free(port) -> bool:
    with socket.socket() as one:
        one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            one.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


@pytest.fixture
def house(tmp_path):
    return shutil.copy(LARCH_BANK, tmp_path / "house.toml")


@pytest.mark.parametrize("how", [signal.SIGTERM, signal.SIGINT])
def test_it_ends_cleanly_with_its_workers(house, how) -> None:
    with opened(house) as (process, port, key, said):
        assert "Nothing leaves this machine" in said
        answer, _ = asked(port, f"/?key={key}")
        assert answer.status == 303
        cookie = answer.getheader("set-cookie").split(";")[0]
        page, body = asked(port, "/", {"cookie": cookie})
        assert page.status == 200
        assert b"Larch Bank" in body
        assert asked(port, "/")[0].status == 403
        workers = children(process)
        process.send_signal(how)
        rest = process.stdout.read()
        assert process.wait(30) == 0
    assert "The workbench is closed." in rest
    assert "Traceback" not in rest
    assert free(port)
    for pid in workers:
        _wait_for(pid)


@pytest.mark.skipif(not Path("/proc").exists(), reason="asks the system for processes")
def test_a_kill_leaves_no_worker_and_loses_no_edit(house) -> None:
    from websockets.sync.client import connect

    with opened(house) as (process, port, key, _said):
        cookie = asked(port, f"/?key={key}")[0].getheader("set-cookie").split(";")[0]
        headers = {"cookie": cookie}
        with connect(
            f"ws://127.0.0.1:{port}/live", origin=f"http://127.0.0.1:{port}", additional_headers=headers
        ) as window:
            edit = {"say": "edit", "changes": [["vault.0.rise", "1.5 m"]], "label": "rise 1.50 m", "id": "e"}
            window.send(json.dumps(edit))
            while json.loads(window.recv(timeout=60)).get("to") != "e":
                pass
            workers = children(process)
            os.kill(process.pid, signal.SIGKILL)
            process.wait(30)
    assert free(port)
    for pid in workers:
        _wait_for(pid)
    assert 'rise = "1.4 m"' in Path(house).read_text(encoding="utf-8")
    with opened(house) as (process, port, key, _said):
        cookie = asked(port, f"/?key={key}")[0].getheader("set-cookie").split(";")[0]
        with connect(
            f"ws://127.0.0.1:{port}/live",
            origin=f"http://127.0.0.1:{port}",
            additional_headers={"cookie": cookie},
        ) as window:
            window.send(json.dumps({"say": "hello"}))
            revision = json.loads(window.recv(timeout=60))
        assert revision["recovered"]
        assert revision["undoes"] == "rise 1.50 m"
        process.send_signal(signal.SIGTERM)
        assert "Not kept yet" in process.stdout.read()


def _wait_for(pid) -> None:
    """Until a process has ended; the kernel tells."""
    try:
        handle = os.pidfd_open(pid)
    except ProcessLookupError:
        return
    with os.fdopen(handle, "rb"):
        import select

        assert select.select([handle], [], [], 20.0)[0], "a worker outlived its server"


def test_sharing_prints_an_address_and_a_picture(house) -> None:
    with opened(house, "--share") as (process, port, _key, said):
        found = re.search(r"http://(?!127\.)([\d.]+):(\d+)/\?key=(\S+)", said)
        assert found
        assert int(found[2]) == port
        assert "█" in said
        assert "trust everybody" in said
        process.send_signal(signal.SIGTERM)
        process.stdout.read()


def test_a_port_that_is_taken_is_said(house, capsys) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        code = main(["open", str(house), "--no-browser", "--port", str(taken.getsockname()[1])])
    assert code == 2
    assert "cannot be had" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "says"), [(["nowhere.toml"], "no such file"), (["--port", "99999999"], "port")]
)
def test_bad_input_is_said_without_a_traceback(words, says, capsys, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["open", "--no-browser", *words]) == 2
    assert says in capsys.readouterr().err
