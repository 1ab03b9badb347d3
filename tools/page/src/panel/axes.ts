// The small cross of axes in the corner of the view.
import * as THREE from "three";
import { s } from "../text/dom";

export class Axes {
  readonly element = s("svg", { class: "axes", viewBox: "-32 -32 64 64", "aria-hidden": "true" });

  /** @param part  how the part is turned in the view. */
  follow(camera: THREE.Camera, part = new THREE.Quaternion()): void {
    const turn = camera.quaternion.clone().invert();
    const arms = ["x", "y", "z"].map((name, i) => {
      const arm = new THREE.Vector3().setComponent(i, 1).applyQuaternion(part).applyQuaternion(turn);
      return { name, arm };
    });
    arms.sort((a, b) => a.arm.z - b.arm.z);
    this.element.replaceChildren(...arms.flatMap(({ name, arm }) => [
      s("line", { x2: 20 * arm.x, y2: -20 * arm.y }),
      s("text", { x: 27 * arm.x, y: -27 * arm.y + 4 }, name),
    ]));
  }
}
