// The map's colours: even bands with lines between them, hatched where they fall short.
import type { DiscField } from "../data/half_sphere";
import type { Scale } from "./scale";

const pixels = 560;
const nothing = [160, 160, 160];

const rgb = (colour: string): number[] => [1, 3, 5].map((i) => parseInt(colour.slice(i, i + 2), 16));

/** Fill a canvas with the disc, y upwards. */
export function paintDisc(canvas: HTMLCanvasElement, field: DiscField, scale: Scale): void {
  canvas.width = canvas.height = pixels;
  const context = canvas.getContext("2d")!;
  const image = context.createImageData(pixels, pixels);
  const colours = scale.colours.map(rgb);
  const bands = new Int8Array(pixels * pixels).fill(-1);
  const short = new Uint8Array(pixels * pixels);
  const place = (i: number) => ((i + 0.5) * 2) / pixels - 1;
  for (let j = 0; j < pixels; j++) {
    for (let i = 0; i < pixels; i++) {
      const [x, y] = [place(i), -place(j)];
      if (x * x + y * y > 1.01) continue;
      const value = field.at(x, y);
      if (value === null) continue;
      const share = (value - scale.low) / (scale.high - scale.low);
      bands[j * pixels + i] = Math.max(0, Math.min(colours.length - 1, Math.floor(share * colours.length)));
      short[j * pixels + i] = Number(value < (scale.hatchBelow ?? -Infinity));
    }
  }
  bands.forEach((band, at) => {
    const [i, j] = [at % pixels, Math.floor(at / pixels)];
    const lined = (i > 0 && bands[at - 1] !== band) || (j > 0 && bands[at - pixels] !== band);
    const hatched = short[at] === 1 && (i + j) % 13 < 2;
    const light = lined || hatched ? 0.72 : 1;
    (band < 0 ? nothing : colours[band]).forEach((c, k) => (image.data[4 * at + k] = c * light));
    image.data[4 * at + 3] = 255;
  });
  context.putImageData(image, 0, 0);
}
