// What the part can be coloured by, made of the fields that the page carries.
import { bandScale, factorScale, nameScale, type Scale } from "../view/scale";
import type { Fields } from "./fields";
import type { Solid } from "./solid";
import type { About, Summary } from "./summary";
import { capital, figures, three } from "./words";

export interface Quantity {
  id: string;
  title: string;
  /** Shown in the short list; others stand in the list of stresses. */
  main: boolean;
  nearest: boolean;
  values: (loadCase: number) => Promise<Float32Array>;
  scale: (values: Float32Array) => Scale;
  text: (value: number) => string;
}

export interface Context {
  summary: Summary;
  about: About;
  solid: Solid;
  fields: Fields;
}

const stressNames = ["xx", "yy", "zz", "xy", "yz", "xz"];
// No stronger than that in any direction asked for: the program stores no larger factor.
const topOfLog2 = 10;

/** Position in the summary's bodies of each tetrahedron. */
export function bodyOfTetrahedron(about: About): (t: number) => number {
  let end = 0;
  const ends = about.bodies.map((body) => (end += body.tetrahedra));
  return (t) => ends.findIndex((e) => t < e);
}

/** Build direction of each vertex; none where a body has no layers. */
function buildDirections({ summary, about, solid }: Context): Float32Array {
  const directions = new Float32Array(solid.position.length).fill(NaN);
  const bodyOf = bodyOfTetrahedron(about);
  for (let t = 0; t < solid.tetrahedra.length / 4; t++) {
    const body = summary.bodies[bodyOf(t)];
    if (!("Zt_MPa" in body.material.strength_at_conditions)) continue;
    for (let k = 0; k < 4; k++) directions.set(body.print_direction, 3 * solid.tetrahedra[4 * t + k]);
    if (solid.middles) for (let k = 0; k < 6; k++) directions.set(body.print_direction, 3 * solid.middles[6 * t + k]);
  }
  return directions;
}

/** One number out of each vertex's stress, components as in `stressNames`. */
type OfStress = (s: number[], n: Float32Array) => number;

const acrossLayers: OfStress = ([xx, yy, zz, xy, yz, xz], [x, y, z]) =>
  xx * x * x + yy * y * y + zz * z * z + 2 * (xy * x * y + yz * y * z + xz * x * z);

const betweenLayers: OfStress = (s, n) => {
  const [xx, yy, zz, xy, yz, xz] = s;
  const [x, y, z] = n;
  const pull = [xx * x + xy * y + xz * z, xy * x + yy * y + yz * z, xz * x + yz * y + zz * z];
  return Math.sqrt(Math.max(0, pull[0] ** 2 + pull[1] ** 2 + pull[2] ** 2 - acrossLayers(s, n) ** 2));
};

const vonMises: OfStress = ([xx, yy, zz, xy, yz, xz]) =>
  Math.sqrt(0.5 * ((xx - yy) ** 2 + (yy - zz) ** 2 + (zz - xx) ** 2) + 3 * (xy * xy + yz * yz + xz * xz));

export async function displacement(fields: Fields, loadCase: number): Promise<Float32Array> {
  const parts = await Promise.all(["x", "y", "z"].map((name) => fields.values(loadCase, name)));
  const out = new Float32Array(3 * parts[0].length);
  parts.forEach((part, c) => part.forEach((value, i) => (out[3 * i + c] = value)));
  return out;
}

function stressQuantity(context: Context, id: string, title: string, main: boolean, value: OfStress): Quantity {
  const { fields, about } = context;
  const { name, per_MPa } = about.pressure_unit;
  return {
    id, title, main, nearest: false,
    values: async (loadCase) => {
      const parts = await Promise.all(stressNames.map((component) => fields.values(loadCase, component)));
      const directions = (await buildCache(context)) as Float32Array;
      return parts[0].map((_, i) => value(parts.map((part) => part[i]), directions.subarray(3 * i, 3 * i + 3)));
    },
    scale: (values) => bandScale(title, name, values, per_MPa),
    text: (v) => (Number.isNaN(v) ? "none here" : `${three(v * per_MPa)} ${name}`),
  };
}

const caches = new WeakMap<Solid, Float32Array>();
async function buildCache(context: Context): Promise<Float32Array> {
  let directions = caches.get(context.solid);
  if (!directions) caches.set(context.solid, (directions = buildDirections(context)));
  return directions;
}

export const factorWords = (log2: number): string =>
  Number.isNaN(log2) ? "not a number" : log2 >= topOfLog2 - 0.01 ? "over 1000" : figures(2 ** log2, 3);

export function quantities(context: Context): Quantity[] {
  const { summary, about, fields } = context;
  const modes = about.modes.map((mode) => capital(mode.words));
  const component = (i: number): OfStress => (s) => s[i];
  return [
    {
      id: "factor", title: "Safety factor", main: true, nearest: false,
      values: (loadCase) => fields.values(loadCase, "log2_factor"),
      scale: () => factorScale(summary.target_safety_factor),
      text: factorWords,
    },
    {
      id: "mode", title: "What gives way first there", main: true, nearest: true,
      values: (loadCase) => fields.values(loadCase, "mode"),
      scale: () => nameScale("What gives way first there", modes),
      text: (v) => (v < 0 ? "no limit found" : modes[Math.round(v)]),
    },
    stressQuantity(context, "across", "Pull across the layers", true, acrossLayers),
    stressQuantity(context, "between", "Shear between layers", true, betweenLayers),
    {
      id: "movement", title: "Movement", main: true, nearest: false,
      values: async (loadCase) => {
        const u = await displacement(fields, loadCase);
        return Float32Array.from({ length: u.length / 3 }, (_, i) => Math.hypot(u[3 * i], u[3 * i + 1], u[3 * i + 2]));
      },
      scale: (values) => bandScale("Movement", "mm", values),
      text: (v) => `${three(v)} mm`,
    },
    ...stressNames.map((name, i) => stressQuantity(context, name, `Stress ${name}`, false, component(i))),
    stressQuantity(context, "mises", "Von Mises stress (not for layers)", false, vonMises),
  ];
}
