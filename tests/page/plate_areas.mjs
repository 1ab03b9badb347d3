// Areas of what a page shades on the plate, worked out in the page by its own code.
import { createRequire } from "node:module";
import { join } from "node:path";
import { root } from "./runs.mjs";

const { buildSync } = createRequire(join(root, "tools/page/package.json"))("esbuild");

const entry = `
  import { readJson } from "./data/blocks";
  import { standing } from "./data/plate";
  import { readSurface } from "./data/surface";
  import { apart } from "./view/skin";
  globalThis.areasOfKinds = async (body, up) => {
    const about = readJson("page");
    const { solid, skin } = await readSurface(about.arrays, (face) => about.plate.body_of_face[face - 1]);
    const surface = { solid, skin: apart(skin) };
    const p = (k, c) => solid.position[3 * surface.skin.vertex[k] + c];
    const areas = [0, 0, 0, 0];
    standing(surface, about.plate, about.plate.bodies[body].id, up).forEach((kind, t) => {
      const [u, v] = [1, 2].map((k) => [0, 1, 2].map((c) => p(3 * t + k, c) - p(3 * t, c)));
      areas[kind] += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    });
    return areas;
  };`;

/** @param body  its position among the bodies. @returns mm² on the plate, overhanging in all, and of that inside cavities. */
export async function shadedAreas(page, body, up) {
  const built = buildSync({ stdin: { contents: entry, resolveDir: join(root, "tools/page/src"), loader: "ts" }, bundle: true, write: false, format: "iife" });
  await page.evaluate(built.outputFiles[0].text);
  const [, plate_contact_mm2, open, trapped_overhang_mm2] = await page.evaluate(([b, direction]) => globalThis.areasOfKinds(b, direction), [body, up]);
  return { plate_contact_mm2, overhang_mm2: open + trapped_overhang_mm2, trapped_overhang_mm2 };
}

/** Where a page's areas are not those that the program counts: places are single precision, a triangle at a limit may fall on either side. */
export const areasOff = (shaded, counted) =>
  Object.entries(shaded).filter(([key, area]) => !(Math.abs(area - Number(counted[key])) <= 1e-3 * Math.max(Number(counted[key]), 1)));
