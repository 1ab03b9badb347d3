// Support as a stand of upright lines, drawn with the part and turned with it.
import * as THREE from "three";

export class Support {
  readonly group = new THREE.Group();

  /** @param colours  of each kind. */
  constructor(colours: string[]) {
    for (const colour of colours) {
      const material = new THREE.LineBasicMaterial({ transparent: true, opacity: 0.75 });
      material.color.setStyle(colour, THREE.LinearSRGBColorSpace);
      const lines = new THREE.LineSegments(new THREE.BufferGeometry(), material);
      lines.frustumCulled = false;
      this.group.add(lines);
    }
  }

  /** @param ends  of each kind's lines, x y z. @param keeps  whether a place is not cut away. */
  set(ends: number[][], keeps: (place: ArrayLike<number>) => boolean): void {
    ends.forEach((places, kind) => {
      const kept: number[] = [];
      for (let i = 0; i < places.length; i += 6)
        if (keeps(places.slice(i, i + 3)) && keeps(places.slice(i + 3, i + 6))) kept.push(...places.slice(i, i + 6));
      const lines = this.group.children[kind] as THREE.LineSegments;
      lines.geometry.dispose();
      lines.geometry = new THREE.BufferGeometry();
      lines.geometry.setAttribute("position", new THREE.Float32BufferAttribute(kept, 3));
    });
  }
}
