// Fields of the load cases, unpacked when they are first asked for.
import { readCodes } from "./blocks";
import type { Arrays, Solid } from "./solid";

export class Fields {
  private readonly kept = new Map<string, Promise<Float32Array>>();

  constructor(
    private readonly solid: Solid,
    private readonly arrays: Arrays,
  ) {}

  /** One value a vertex; NaN where the program had no number. */
  values(loadCase: number, field: string): Promise<Float32Array> {
    const name = `${loadCase}.${field}`;
    let values = this.kept.get(name);
    if (!values) this.kept.set(name, (values = field === "mode" ? this.names(name) : this.numbers(name)));
    return values;
  }

  /** How far a value may be off by being rounded for this page. */
  rounding(loadCase: number, field: string): number {
    return this.arrays[`${loadCase}.${field}`].step / 2;
  }

  private async names(name: string): Promise<Float32Array> {
    return Float32Array.from(await readCodes(name, this.arrays[name]), (code) => code - 1);
  }

  private async numbers(name: string): Promise<Float32Array> {
    const { low, step } = this.arrays[name];
    const codes = (await readCodes(name, this.arrays[name])) as Uint16Array;
    const { corners, ends } = this.solid;
    for (let i = 1; i < corners; i++) codes[i] += codes[i - 1];
    for (let i = corners; i < codes.length; i++) {
      const end = 2 * (i - corners);
      codes[i] += (codes[ends[end]] + codes[ends[end + 1]]) >> 1;
    }
    return Float32Array.from(codes, (code) => (code === 0 ? NaN : low + step * code));
  }
}
