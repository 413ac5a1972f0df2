/** @file The section plane of the model: what is cut is closed with its hatch and edged in ink. */

import * as THREE from "../vendor/three/three.module.js";

/** Names of the planes, and the way in which each looks: what lies on that side is taken away. */
export const PLANES = {
  across: new THREE.Vector3(0, 0, -1),
  along: new THREE.Vector3(-1, 0, 0),
  level: new THREE.Vector3(0, -1, 0),
};

export class Cut {
  /** @param {THREE.Scene} scene @param {THREE.WebGLRenderer} renderer */
  constructor(scene, renderer) {
    this.scene = scene;
    this.renderer = renderer;
    this.plane = new THREE.Plane();
    this.name = "none";
    this.caps = [];
  }

  /** Put the plane somewhere: by its name and a share of the house. */
  place(name, share, box) {
    this.name = name;
    if (name === "none") return;
    const way = PLANES[name];
    const axis = name === "across" ? "z" : name === "along" ? "x" : "y";
    // Across: the share counts from the front, which lies at the greatest z.
    const from = axis === "z" ? box.max.z : axis === "x" ? box.max.x : box.max.y;
    const to = axis === "z" ? box.min.z : axis === "x" ? box.min.x : box.min.y;
    this.at = from + share * (to - from);
    this.plane.set(way, this.at);
  }

  /** Planes for the materials of a layer. */
  planes(isCut) {
    return this.name !== "none" && isCut ? [this.plane] : [];
  }

  clear() {
    for (const cap of this.caps) {
      this.scene.remove(cap);
      cap.traverse((one) => {
        if (one.userData.own) one.geometry.dispose();
        one.material?.dispose();
      });
    }
    this.caps = [];
  }

  /** Close every layer that is cut: count its faces behind the plane, then fill where the count is open. */
  close(layers, paint, box) {
    this.clear();
    if (this.name === "none") return;
    const wide = box.getSize(new THREE.Vector3()).length();
    layers.forEach((layer, order) => {
      if (!layer.mesh.visible || !layer.isCut) return;
      const group = new THREE.Group();
      group.add(this.counted(layer.mesh.geometry, THREE.BackSide, THREE.IncrementWrapStencilOp, order));
      group.add(this.counted(layer.mesh.geometry, THREE.FrontSide, THREE.DecrementWrapStencilOp, order));
      group.add(this.filled(paint.cut(layer.kind), wide, order));
      group.add(this.edged(layer.mesh.geometry, paint, wide * 0.0011));
      this.scene.add(group);
      this.caps.push(group);
    });
  }

  counted(geometry, side, operation, order) {
    const material = new THREE.MeshBasicMaterial({
      side,
      colorWrite: false,
      depthWrite: false,
      depthTest: false,
      stencilWrite: true,
      stencilFunc: THREE.AlwaysStencilFunc,
      stencilFail: operation,
      stencilZFail: operation,
      stencilZPass: operation,
      clippingPlanes: [this.plane],
    });
    const mesh = new THREE.Mesh(geometry, material);
    mesh.renderOrder = order + 1.1;
    return mesh;
  }

  filled({ texture, size }, wide, order) {
    const geometry = new THREE.PlaneGeometry(2 * wide, 2 * wide);
    const places = geometry.attributes.uv;
    for (let at = 0; at < places.count; at++) places.setXY(at, (places.getX(at) * 2 * wide) / size, (places.getY(at) * 2 * wide) / size);
    const material = new THREE.MeshBasicMaterial({
      map: texture,
      side: THREE.DoubleSide,
      stencilWrite: true,
      stencilRef: 0,
      stencilFunc: THREE.NotEqualStencilFunc,
      stencilFail: THREE.ReplaceStencilOp,
      stencilZFail: THREE.ReplaceStencilOp,
      stencilZPass: THREE.ReplaceStencilOp,
    });
    const mesh = new THREE.Mesh(geometry, material);
    mesh.userData.own = true;
    mesh.renderOrder = order + 1.2;
    mesh.position.copy(this.plane.coplanarPoint(new THREE.Vector3()));
    mesh.lookAt(mesh.position.clone().sub(this.plane.normal));
    mesh.onAfterRender = (renderer) => renderer.clearStencil();
    return mesh;
  }

  /** Where triangles meet the plane, as ribbons of ink. */
  edged(geometry, paint, half) {
    const segments = crossed(geometry, this.plane);
    const corners = new Float32Array(segments.length * 18);
    const way = new THREE.Vector3();
    const aside = new THREE.Vector3();
    const lift = this.plane.normal.clone().multiplyScalar(-half * 0.5);
    segments.forEach(([from, to], at) => {
      way.subVectors(to, from).normalize();
      aside.crossVectors(way, this.plane.normal).multiplyScalar(half);
      const ends = [from.clone().addScaledVector(way, -half), to.clone().addScaledVector(way, half)];
      const four = [ends[0].clone().add(aside), ends[0].clone().sub(aside), ends[1].clone().sub(aside), ends[1].clone().add(aside)];
      [0, 1, 2, 0, 2, 3].forEach((corner, number) => four[corner].toArray(corners, at * 18 + number * 3));
    });
    const ribbon = new THREE.BufferGeometry();
    ribbon.setAttribute("position", new THREE.BufferAttribute(corners, 3));
    const mesh = new THREE.Mesh(ribbon, new THREE.MeshBasicMaterial({ color: paint.ink, side: THREE.DoubleSide }));
    mesh.position.copy(lift);
    mesh.userData.own = true;
    mesh.renderOrder = 60;
    return mesh;
  }
}

/** The pieces in which a plane crosses the triangles of a body. */
function crossed(geometry, plane) {
  const place = geometry.attributes.position;
  const index = geometry.index;
  const count = index ? index.count : place.count;
  const corner = (number) => new THREE.Vector3().fromBufferAttribute(place, index ? index.getX(number) : number);
  const found = [];
  for (let at = 0; at < count; at += 3) {
    const three = [corner(at), corner(at + 1), corner(at + 2)];
    const over = three.map((one) => plane.distanceToPoint(one));
    if (over.every((one) => one > 0) || over.every((one) => one <= 0)) continue;
    const ends = [];
    for (const [a, b] of [[0, 1], [1, 2], [2, 0]]) {
      if (over[a] > 0 === over[b] > 0) continue;
      ends.push(three[a].clone().lerp(three[b], over[a] / (over[a] - over[b])));
    }
    if (ends.length === 2 && ends[0].distanceTo(ends[1]) > 1e-6) found.push(ends);
  }
  return found;
}
