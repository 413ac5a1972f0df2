"""The build hook: what it fetches, when it leaves everything alone, and that its lock names no place."""

from __future__ import annotations

import importlib.util
import json
import sys
import types

import pytest


@pytest.fixture(scope="module")
def module(repository):
    """The hook, without the build backend, which is only there while a wheel is built."""
    interface = types.ModuleType("hatchling.builders.hooks.plugin.interface")
    interface.BuildHookInterface = type("BuildHookInterface", (), {})
    names = ["hatchling", "hatchling.builders", "hatchling.builders.hooks", "hatchling.builders.hooks.plugin"]
    stand_ins = {name: types.ModuleType(name) for name in names} | {interface.__name__: interface}
    real = {name: sys.modules.get(name) for name in stand_ins}
    sys.modules.update(stand_ins)
    try:
        spec = importlib.util.spec_from_file_location("hatch_build_under_test", repository / "hatch_build.py")
        found = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(found)
    finally:
        for name, before in real.items():
            sys.modules.pop(name)
            if before is not None:
                sys.modules[name] = before
    return found


@pytest.fixture
def hook(module, tmp_path, monkeypatch):
    """The hook on an empty project with a lock."""
    monkeypatch.delenv("BERMWRIGHT_NO_3D", raising=False)
    (tmp_path / "package-lock.json").write_text("{}", encoding="utf-8")
    one = module.BuildHook()
    one.root, one.target_name = str(tmp_path), "wheel"
    return one


@pytest.fixture
def package(module, tmp_path):
    """What npm would have unpacked."""
    folder = tmp_path / "node_modules" / "three"
    for source in module.TAKEN:
        (folder / source).parent.mkdir(parents=True, exist_ok=True)
        (folder / source).write_text("import { A } from 'three';\n", encoding="utf-8")
    return folder


def test_node_is_asked_for_only_while_something_is_missing(module, hook, package):
    assert hook.dependencies() == [module.NODE]
    hook._copy(package)
    assert hook.dependencies() == []


@pytest.mark.parametrize("said", ["1", "yes"])
def test_it_can_be_left_out(hook, monkeypatch, said):
    monkeypatch.setenv("BERMWRIGHT_NO_3D", said)
    assert hook.dependencies() == []
    hook.initialize("standard", {})


def test_a_source_package_fetches_nothing(hook):
    hook.target_name = "sdist"
    assert hook.dependencies() == []


@pytest.mark.parametrize("spoil", ["changed", "gone", "other lock"])
def test_a_file_that_is_not_the_one_of_the_lock_is_fetched_again(module, hook, package, tmp_path, spoil):
    hook._copy(package)
    file = tmp_path / module.VENDOR / "three.core.js"
    if spoil == "changed":
        file.write_text("something else", encoding="utf-8")
    elif spoil == "gone":
        file.unlink()
    else:
        (tmp_path / "package-lock.json").write_text('{"other": 1}', encoding="utf-8")
    assert hook.dependencies() == [module.NODE]


def test_a_page_needs_no_map_of_names(module, hook, package, tmp_path):
    hook._copy(package)
    folder = tmp_path / module.VENDOR
    assert "from '../three.module.js'" in (folder / "loaders/GLTFLoader.js").read_text(encoding="utf-8")
    assert "from './three.module.js'" in (folder / "three.core.js").read_text(encoding="utf-8")
    assert list(folder.parent.iterdir()) == [folder]


def test_the_lock_names_versions_and_fingerprints_and_no_place(repository):
    text = (repository / "package-lock.json").read_text(encoding="utf-8")
    packages = json.loads(text)["packages"]
    wanted = json.loads((repository / "package.json").read_text(encoding="utf-8"))["dependencies"]
    assert "://" not in text
    assert "resolved" not in text
    assert {name: packages[f"node_modules/{name}"]["version"] for name in wanted} == wanted
    assert all(one["integrity"].startswith("sha512-") for name, one in packages.items() if name)
    assert "omit-lockfile-registry-resolved=true" in (repository / ".npmrc").read_text(encoding="utf-8")
