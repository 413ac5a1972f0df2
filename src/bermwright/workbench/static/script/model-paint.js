/** @file What each kind of body is painted with: the washes of the drawing, and its hatches where it is cut. */

import * as THREE from "../vendor/three/three.module.js";

/** Kind of body: the colour token of its faces, how much ink is mixed in, and the hatch of its cut. */
const KINDS = {
  ground: ["--insitu", 0, "earth"],
  footing: ["--insitu", 0.1, "stone"],
  wall: ["--paper2", 0.08, "stone"],
  "wall insulation": ["--paper2", 0, "zigzag"],
  floor: ["--paper2", 0.06, "stone"],
  "floor insulation": ["--paper2", 0, "zigzag"],
  rib: ["--timber", 0, "grain"],
  lagging: ["--timber", 0.1, "grain"],
  membrane: ["--bar", 0, "full"],
  "vapour control": ["--bar", 0.1, "full"],
  insulation: ["--paper2", 0.02, "zigzag"],
  drainage: ["--paper2", 0.14, "stone"],
  fleece: ["--paper2", 0.06, "full"],
  "end wall": ["--timber", 0.06, "grain"],
  "upper floor": ["--timber", 0, "grain"],
  opening: ["--cold", 0, "full"],
  flue: ["--soft", 0, "full"],
  course: ["--earth", 0, "placed"],
  fill: ["--earth", 0, "placed"],
  turf: ["--earth", 0.16, "placed"],
};
const OTHER = ["--paper2", 0.04, "full"];

/** Strokes of a tile of one square metre: from and to, in shares of the tile. */
const HATCHES = {
  earth: [[0.1, 0.3, 0.3, 0.1], [0.16, 0.36, 0.36, 0.16], [0.22, 0.42, 0.42, 0.22], [0.6, 0.8, 0.8, 0.6], [0.66, 0.86, 0.86, 0.66], [0.72, 0.92, 0.92, 0.72]],
  placed: [[0.05, 0.2, 0.3, 0.2], [0.5, 0.2, 0.62, 0.2], [0.25, 0.55, 0.55, 0.55], [0.75, 0.6, 0.95, 0.6], [0.1, 0.85, 0.28, 0.85], [0.6, 0.88, 0.85, 0.88]],
  stone: [[0, 0.25, 0.25, 0], [0, 0.5, 0.5, 0], [0, 0.75, 0.75, 0], [0, 1, 1, 0], [0.25, 1, 1, 0.25], [0.5, 1, 1, 0.5], [0.75, 1, 1, 0.75]],
  zigzag: [[0, 0.9, 0.25, 0.1], [0.25, 0.1, 0.5, 0.9], [0.5, 0.9, 0.75, 0.1], [0.75, 0.1, 1, 0.9]],
  grain: [[0, 0.15, 1, 0.2], [0, 0.42, 1, 0.4], [0, 0.63, 1, 0.68], [0, 0.88, 1, 0.86]],
  full: [],
};
const TILE = { earth: 1.1, placed: 1.0, stone: 0.3, zigzag: 0.2, grain: 0.12, full: 1 };
const PIXELS = 128;

export class Paint {
  constructor() {
    this.read();
  }

  /** Take the colours that the page has now. */
  read() {
    const style = getComputedStyle(document.documentElement);
    this.lamp = document.documentElement.dataset.light === "lamp";
    this.token = (name) => new THREE.Color(style.getPropertyValue(name).trim() || "#888888");
    this.ink = this.token("--ink");
    this.paper = this.token("--paper");
    this.textures?.forEach(({ texture }) => texture.dispose());
    this.textures = new Map();
  }

  /** The colour of the faces of a kind of body. @param {string} kind */
  face(kind) {
    const [token, share] = KINDS[kind] ?? OTHER;
    return this.token(token).lerp(this.ink, share);
  }

  /** The hatch of a cut body, with its wash: a tile, and its size in metres. @param {string} kind */
  cut(kind) {
    if (!this.textures.has(kind)) this.textures.set(kind, this.tile(kind));
    return this.textures.get(kind);
  }

  /** @param {string} kind */
  tile(kind) {
    const hatch = (KINDS[kind] ?? OTHER)[2];
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = PIXELS;
    const pen = canvas.getContext("2d");
    pen.fillStyle = `#${this.face(kind).getHexString()}`;
    pen.fillRect(0, 0, PIXELS, PIXELS);
    pen.strokeStyle = `#${this.token("--soft").getHexString()}`;
    pen.lineWidth = hatch === "earth" || hatch === "placed" ? 1.6 : 5;
    for (const [x, y, toX, toY] of HATCHES[hatch]) {
      pen.beginPath();
      pen.moveTo(x * PIXELS, y * PIXELS);
      pen.lineTo(toX * PIXELS, toY * PIXELS);
      pen.stroke();
    }
    const texture = new THREE.CanvasTexture(canvas);
    texture.colorSpace = THREE.SRGBColorSpace;
    texture.wrapS = texture.wrapT = THREE.RepeatWrapping;
    texture.anisotropy = 4;
    return { texture, size: TILE[hatch] };
  }
}
