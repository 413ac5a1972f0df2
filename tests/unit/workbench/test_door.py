"""Who is let in: host, origin, keys, cookies, sizes, paths, and the headers of every answer."""

from __future__ import annotations

import pytest
from starlette.websockets import WebSocketDisconnect

from bermwright.workbench.security import COOKIE, POLICY

HOST = "testserver"
ORIGIN = f"http://{HOST}"
PAGES = ("/", "/start", "/sketch", "/compare", "/lessons", "/glossary", "/walk/steps")


def test_nobody_comes_in_without_the_key(serve, file) -> None:
    with serve(file) as bench:
        for path in (*PAGES, "/static/style/tokens.css", "/model.glb", "/made/1/x.pdf"):
            answer = bench.client.get(path, follow_redirects=False)
            assert answer.status_code == 403, path
        assert bench.client.get("/", params={"key": "guess"}).status_code == 403


def test_the_key_opens_once_and_becomes_a_cookie_that_no_script_reads(serve, file) -> None:
    with serve(file) as bench:
        first = bench.client.get("/", params={"key": bench.door.owner}, follow_redirects=False)
        assert first.status_code == 303
        assert first.headers["location"] == "/"
        cookie = first.headers["set-cookie"].lower()
        assert "httponly" in cookie
        assert "samesite=strict" in cookie
        assert bench.client.get("/").status_code == 200
        bench.client.cookies.clear()
        assert bench.client.get("/", params={"key": bench.door.owner}).status_code == 403
        assert bench.client.get("/", headers={"cookie": f"{COOKIE}=made-up"}).status_code == 403


def test_every_page_keeps_to_itself(bench) -> None:
    for path in PAGES:
        answer = bench.client.get(path)
        assert answer.status_code == 200, path
        assert answer.headers["content-security-policy"] == POLICY
        assert answer.headers["x-content-type-options"] == "nosniff"
        if "html" in answer.headers["content-type"]:
            assert "http://" not in answer.text.replace("http://www.w3.org", "")
            assert "https://" not in answer.text
            assert "<script>" not in answer.text
            assert " style=" not in answer.text
            assert " onclick" not in answer.text


def test_another_name_or_page_is_turned_away(bench) -> None:
    for host in ("evil.test", "testserver.evil.test", "127.0.0.1:1", ""):
        assert bench.client.get("/", headers={"host": host}).status_code == 403
    for origin in (
        "http://evil.test",
        "null",
        "https://testserver.evil.test",
        "file://testserver",
        "http://[",
    ):
        posted = bench.client.post("/start/open", json={"file": "house.toml"}, headers={"origin": origin})
        assert posted.status_code == 403
    assert bench.client.post("/start/open", json={"file": "house.toml"}).status_code == 403  # no origin


@pytest.mark.parametrize("origin", [None, "http://evil.test", "null", "http://["])
def test_a_socket_from_another_page_is_closed(bench, origin) -> None:
    headers = {} if origin is None else {"origin": origin}
    with pytest.raises(WebSocketDisconnect), bench.client.websocket_connect("/live", headers=headers):
        pass


def test_a_socket_without_a_cookie_or_for_another_host_is_closed(bench) -> None:
    named = {"origin": "http://evil.test", "host": "evil.test"}
    with pytest.raises(WebSocketDisconnect), bench.client.websocket_connect("/live", headers=named):
        pass
    bench.client.cookies.clear()
    with (
        pytest.raises(WebSocketDisconnect),
        bench.client.websocket_connect("/live", headers={"origin": ORIGIN}),
    ):
        pass


def test_a_guest_looks_and_changes_nothing(serve, file) -> None:
    with serve(file) as bench:
        keys = []
        bench.door.share(edits=False, told=keys.append)
        assert bench.client.get("/", params={"key": keys[0]}).status_code == 200
        assert len(keys) == 2  # the next guest has a key of his own
        posted = bench.client.post("/start/open", json={"file": "x.toml"}, headers={"origin": ORIGIN})
        assert posted.status_code == 403
        with bench.window() as window:
            revision = next(one for one in window.heard if one["say"] == "revision")
            handles = next(one for one in window.heard if one["say"] == "handles")["list"]
            assert revision["readonly"]
            assert all(one["fixed"] for one in handles)
            for message in (
                {"say": "edit", "changes": [["vault.0.rise", "1.5 m"]]},
                {"say": "drag", "seq": 1, "key": "vault.0.rise", "value": "1.5 m"},
                {"say": "undo"},
                {"say": "keep"},
                {"say": "text", "text": ""},
                {"say": "part", "act": "remove", "kind": "opening", "number": 0},
                {"say": "remedy", "finding": 0, "number": 1},
            ):
                window.socket.send_json(message)
                assert window.hear("wrong")["kind"] == "refused"
        bench.client.cookies.clear()
        assert bench.client.get("/", params={"key": keys[0]}).status_code == 403
    assert bench.table.desk.number == 0


def test_a_guest_ends_no_work_but_its_own(serve, file) -> None:
    with serve(file) as bench:
        keys = []
        bench.door.share(edits=False, told=keys.append)
        bench.client.get("/", params={"key": keys[0]})
        with bench.window() as window:
            window.say("stop", job=1)
            assert "look at only" in window.hear("wrong")["text"]


def test_a_guest_may_be_let_edit(serve, file) -> None:
    with serve(file) as bench:
        keys = []
        bench.door.share(edits=True, told=keys.append)
        bench.client.get("/", params={"key": keys[0]})
        with bench.window() as window:
            window.ask("edit", "revision", changes=[["vault.0.rise", "1.5 m"]], label="rise")
    assert bench.table.desk.number == 1


@pytest.mark.parametrize(
    "path",
    [
        "/static/../server.py",
        "/static/%2e%2e/server.py",
        "/static/..%2fserver.py",
        "/made/1/..%2f..%2fhouse.toml",
        "/made/1/%2e%2e",
        "/made/1/house.toml",
        "/made/x/house.toml",
    ],
)
def test_paths_lead_nowhere_else(bench, path) -> None:
    answer = bench.client.get(path)
    assert answer.status_code in {404, 422}
    assert "import" not in answer.text


@pytest.mark.parametrize(
    "name", ["../house.toml", "/etc/passwd", "..\\house.toml", ".house.toml.desk", "a/b.toml"]
)
def test_only_house_files_of_the_folder_are_opened(serve, name) -> None:
    with serve(None) as bench:
        bench.client.get("/", params={"key": bench.door.owner})
        answer = bench.client.post("/start/open", json={"file": name}, headers={"origin": ORIGIN})
        assert answer.status_code == 422
        assert bench.table.desk is None


def test_what_is_too_large_is_not_taken(bench) -> None:
    headers = {"origin": ORIGIN, "content-length": "999999999"}
    assert bench.client.post("/start/answer", content=b"x", headers=headers).status_code == 413
    huge = (b"x" * 1_000_000 for _ in range(30))  # says no length, and goes on
    assert bench.client.post("/start/answer", content=huge, headers={"origin": ORIGIN}).status_code == 413


def test_what_is_no_table_of_values_is_said(bench) -> None:
    for content in (b"", b"[1]", b"\xff\xfe", b"[" * 100_000):
        answer = bench.client.post("/start/open", content=content, headers={"origin": ORIGIN})
        assert answer.status_code == 422
        assert "What the page sent" in answer.json()["wrong"]


def test_without_a_file_the_start_page_comes(serve) -> None:
    with serve(None) as bench:
        answer = bench.client.get("/", params={"key": bench.door.owner})
        assert answer.status_code == 200
        assert answer.url.path == "/start"
        with bench.client.websocket_connect("/live", headers={"origin": ORIGIN}) as socket:
            socket.send_json({"say": "edit", "changes": [["vault.0.rise", "1 m"]]})
            assert socket.receive_json()["text"] == "No house file is open."
