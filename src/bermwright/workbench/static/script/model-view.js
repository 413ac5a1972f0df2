/** @file The house as bodies that can be turned: paper faces with ink edges, drawn only when something moves. */

import * as THREE from "../vendor/three/three.module.js";
import { OrbitControls } from "../vendor/three/controls/OrbitControls.js";
import { GLTFLoader } from "../vendor/three/loaders/GLTFLoader.js";
import { mergeGeometries } from "../vendor/three/utils/BufferGeometryUtils.js";
import { Cut } from "./model-cut.js";
import { Paint } from "./model-paint.js";

/** Kinds that stay whole where only the soil is cut, so that the ribs stand bare before the cut. */
const STANDS = new Set(["rib", "wall", "footing", "floor", "floor insulation"]);
const CREASE = 28;
const STEP = Math.PI / 24;
const HOME = { turn: -0.55, up: 0.5 };

export class ModelView {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.renderer = new THREE.WebGLRenderer({ antialias: true, alpha: true, stencil: true });
    this.renderer.localClippingEnabled = true;
    this.renderer.shadowMap.enabled = true;
    this.renderer.shadowMap.type = THREE.PCFShadowMap;
    // Shadows stay while only the eye moves.
    this.renderer.shadowMap.autoUpdate = false;
    this.renderer.setPixelRatio(Math.min(2, devicePixelRatio || 1));
    this.canvas = this.renderer.domElement;
    place.append(this.canvas);
    this.scene = new THREE.Scene();
    this.camera = new THREE.OrthographicCamera(-1, 1, 1, -1, 0.1, 160);
    this.controls = new OrbitControls(this.camera, this.canvas);
    this.controls.enableDamping = false;
    this.controls.maxPolarAngle = Math.PI * 0.49;
    this.controls.addEventListener("change", () => this.draw());
    this.paint = new Paint();
    this.cut = new Cut(this.scene, this.renderer);
    this.layers = [];
    this.box = new THREE.Box3();
    this.wish = { plane: "across", share: 0.36, stands: true, hidden: new Set() };
    this.lights();
    this.keys();
    new ResizeObserver(() => this.fit()).observe(place);
  }

  lights() {
    this.sky = new THREE.AmbientLight(0xffffff, Math.PI * 0.74);
    this.sun = new THREE.DirectionalLight(0xffffff, Math.PI * 0.42);
    this.sun.castShadow = true;
    this.sun.shadow.mapSize.set(2048, 2048);
    this.sun.shadow.normalBias = 0.06;
    this.sun.shadow.bias = -0.0008;
    this.sunWay = new THREE.Vector3(-0.5, 0.75, 0.6).normalize();
    this.scene.add(this.sky, this.sun, this.sun.target);
  }

  /** Show a house. @param {ArrayBuffer} bytes */
  async show(bytes) {
    const found = await new GLTFLoader().parseAsync(bytes, "");
    found.scene.updateMatrixWorld(true);
    const first = this.layers.length === 0;
    this.forget();
    this.layers = layersOf(found.scene);
    this.vault = vaultOf(found.scene);
    for (const layer of this.layers) this.body(layer);
    this.box = boxOf(this.layers);
    this.dress();
    if (first) this.home();
    this.light();
    this.apply();
  }

  forget() {
    this.cut.clear();
    for (const layer of this.layers) {
      this.scene.remove(layer.mesh, layer.lines);
      for (const one of [layer.mesh, layer.lines]) {
        one.geometry.dispose();
        one.material.dispose();
      }
    }
    this.layers = [];
  }

  body(layer) {
    const material = new THREE.MeshLambertMaterial({ flatShading: true, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1, side: THREE.DoubleSide });
    layer.mesh = new THREE.Mesh(layer.geometry, material);
    layer.mesh.castShadow = layer.mesh.receiveShadow = true;
    layer.mesh.renderOrder = 50;
    layer.lines = new THREE.LineSegments(new THREE.EdgesGeometry(layer.geometry, CREASE), new THREE.LineBasicMaterial({ transparent: true }));
    // Many thin things side by side would close up to black.
    layer.lines.material.opacity = layer.kind === "rib" ? 0.5 : 1;
    layer.lines.renderOrder = 55;
    this.scene.add(layer.mesh, layer.lines);
  }

  /** The colours of the light that the page has now. */
  dress() {
    this.paint.read();
    for (const layer of this.layers) {
      layer.mesh.material.color.copy(this.paint.face(layer.kind));
      layer.lines.material.color.copy(this.paint.ink);
    }
    this.sun.color.set(this.paint.lamp ? "#ffc37a" : "#fff6e0");
    this.cut.close(this.layers, this.paint, this.box);
    this.draw();
  }

  /** Layers, plane and what it spares, as they are wished. */
  apply() {
    const { plane, share, stands, hidden } = this.wish;
    this.cut.place(plane, share, this.box);
    for (const layer of this.layers) {
      layer.isCut = !(stands && STANDS.has(layer.kind));
      layer.mesh.visible = layer.lines.visible = !hidden.has(layer.name);
      layer.mesh.material.clippingPlanes = layer.lines.material.clippingPlanes = this.cut.planes(layer.isCut);
      layer.mesh.material.clipShadows = true;
      layer.mesh.material.needsUpdate = true;
    }
    this.cut.close(this.layers, this.paint, this.box);
    this.renderer.shadowMap.needsUpdate = true;
    this.draw();
  }

  /** Where the sun stands: degrees over the horizon, and to the right of the way in; null where it is not shown. */
  shine(height, turn) {
    if (height === null) {
      this.sunWay.set(-0.5, 0.75, 0.6).normalize();
      this.bright = 1;
    } else {
      const up = THREE.MathUtils.degToRad(height);
      const aside = THREE.MathUtils.degToRad(turn);
      this.sunWay.set(Math.sin(aside) * Math.cos(up), Math.sin(up), -Math.cos(aside) * Math.cos(up));
      this.bright = height > 0 ? Math.min(1, 0.35 + height / 25) : 0;
    }
    this.light();
    this.draw();
  }

  light() {
    if (this.box.isEmpty()) return;
    const middle = this.box.getCenter(new THREE.Vector3());
    const reach = 0.5 * this.box.getSize(new THREE.Vector3()).length();
    this.sun.target.position.copy(middle);
    this.sun.position.copy(middle).addScaledVector(this.sunWay, 2 * reach);
    const eye = this.sun.shadow.camera;
    Object.assign(eye, { left: -reach, right: reach, top: reach, bottom: -reach, near: 0.1, far: 4 * reach });
    eye.updateProjectionMatrix();
    this.sun.intensity = Math.PI * 0.5 * (this.bright ?? 1);
    this.sky.intensity = Math.PI * (this.bright === 0 ? 0.5 : 0.7);
    this.renderer.shadowMap.needsUpdate = true;
  }

  /** Look at it from where it was looked at first. */
  home() {
    this.turn = HOME.turn;
    this.up = HOME.up;
    this.controls.target.copy(this.box.getCenter(new THREE.Vector3()));
    this.camera.zoom = 1;
    this.stand();
    this.fit();
  }

  /** Put the eye by its turn and its height. */
  stand() {
    const far = 80;
    const way = new THREE.Vector3(-Math.sin(this.turn) * Math.cos(this.up), Math.sin(this.up), Math.cos(this.turn) * Math.cos(this.up));
    this.camera.position.copy(this.controls.target).addScaledVector(way, far);
    this.controls.update();
  }

  /** The whole house fills the place. */
  fit() {
    const wide = this.place.clientWidth;
    const tall = this.place.clientHeight;
    if (!wide || !tall) return;
    this.renderer.setSize(wide, tall, false);
    if (!this.box.isEmpty()) {
      const { x, y } = this.seen();
      const half = Math.max(x / wide, y / tall) * 0.51;
      Object.assign(this.camera, { left: -half * wide, right: half * wide, top: half * tall, bottom: -half * tall });
      this.camera.updateProjectionMatrix();
    }
    // A new size wipes the canvas: draw it in the same breath.
    this.render();
  }

  /** How wide and tall the house looks from here (m). */
  seen() {
    this.camera.updateMatrixWorld();
    const back = this.camera.matrixWorld.clone().invert();
    const seen = new THREE.Box3();
    const { min, max } = this.box;
    for (let number = 0; number < 8; number++) {
      const corner = new THREE.Vector3(number & 1 ? max.x : min.x, number & 2 ? max.y : min.y, number & 4 ? max.z : min.z);
      seen.expandByPoint(corner.applyMatrix4(back));
    }
    return seen.getSize(new THREE.Vector3());
  }

  keys() {
    this.canvas.tabIndex = 0;
    const act = {
      ArrowLeft: () => this.swing(-STEP, 0),
      ArrowRight: () => this.swing(STEP, 0),
      ArrowUp: () => this.swing(0, STEP),
      ArrowDown: () => this.swing(0, -STEP),
      "+": () => this.near(1.15),
      "=": () => this.near(1.15),
      "-": () => this.near(1 / 1.15),
      Home: () => this.home(),
    };
    this.canvas.addEventListener("keydown", (event) => {
      if (!act[event.key] || event.ctrlKey || event.metaKey || event.altKey) return;
      act[event.key]();
      event.preventDefault();
    });
  }

  swing(turn, up) {
    const way = this.camera.position.clone().sub(this.controls.target).normalize();
    this.up = Math.min(1.54, Math.max(0.04, Math.asin(way.y) + up));
    this.turn = Math.atan2(-way.x, way.z) - turn;
    this.stand();
    this.draw();
  }

  /** The name of the layer under a place of the screen; empty where there is none. */
  named(x, y) {
    const box = this.canvas.getBoundingClientRect();
    const spot = new THREE.Vector2(((x - box.left) / box.width) * 2 - 1, 1 - ((y - box.top) / box.height) * 2);
    const ray = new THREE.Raycaster();
    ray.setFromCamera(spot, this.camera);
    const shown = this.layers.filter((layer) => layer.mesh.visible);
    for (const hit of ray.intersectObjects(shown.map((layer) => layer.mesh), false)) {
      const layer = shown.find((one) => one.mesh === hit.object);
      if (this.cut.planes(layer.isCut).every((plane) => plane.distanceToPoint(hit.point) >= 0)) return layer.name;
    }
    return "";
  }

  near(times) {
    this.camera.zoom = Math.min(12, Math.max(0.4, this.camera.zoom * times));
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  /** Draw once, at the next frame. */
  draw() {
    if (this.waiting) return;
    this.waiting = requestAnimationFrame(() => this.render());
  }

  render() {
    cancelAnimationFrame(this.waiting);
    this.waiting = 0;
    this.renderer.render(this.scene, this.camera);
    this.canvas.dataset.drawn = String(Number(this.canvas.dataset.drawn ?? 0) + 1);
  }
}

function boxOf(layers) {
  const box = new THREE.Box3();
  for (const layer of layers) box.expandByObject(layer.mesh);
  return box;
}

/** The layers in the order of building, each as one body. @param {THREE.Object3D} root */
function layersOf(root) {
  const byName = new Map();
  root.traverse((one) => {
    if (!one.isMesh) return;
    const { of, part, kind, layer } = one.userData;
    const name = of ?? part ?? one.name;
    if (!byName.has(name)) byName.set(name, { name, kind, order: layer ?? 0, pieces: [] });
    const piece = new THREE.BufferGeometry();
    piece.setAttribute("position", one.geometry.attributes.position.clone());
    piece.setIndex(one.geometry.index.clone());
    byName.get(name).pieces.push(piece.applyMatrix4(one.matrixWorld));
  });
  return [...byName.values()]
    .sort((a, b) => a.order - b.order)
    .map(({ pieces, ...layer }) => ({ ...layer, geometry: mergeGeometries(pieces) }));
}

function vaultOf(root) {
  let found = null;
  root.traverse((one) => {
    if (one.userData.kind === "vault" && !found) found = { name: one.name, remarks: one.userData.remarks ?? [], axis: one.userData.axis_degrees_from_north };
  });
  return found;
}
