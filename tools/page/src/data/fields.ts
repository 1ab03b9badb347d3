// Fields of the load cases, unpacked when they are first asked for.
import { readCodes } from "./blocks";
import type { Arrays, Solid } from "./solid";

/** A load case as a sum of the load cases that the page carries. */
export type Sum = { carried: number; count: number }[];

// Judged case by case; everything else sums.
const ownFields = ["log2_factor", "mode"];

export class Fields {
  private readonly kept = new Map<string, Promise<Float32Array>>();

  constructor(
    private readonly solid: Solid,
    private readonly arrays: Arrays,
    private readonly sums: Sum[],
  ) {}

  /** One value a vertex; NaN where the program had no number. */
  values(loadCase: number, field: string): Promise<Float32Array> {
    const sum = this.sumOf(loadCase, field);
    const itself = sum.length === 1 && sum[0].count === 1;
    return itself ? this.carried(`${sum[0].carried}.${field}`) : this.summed(`${loadCase}.${field}`, sum, field);
  }

  /** How far a value may be off by being rounded for this page. */
  rounding(loadCase: number, field: string): number {
    return this.sumOf(loadCase, field)
      .reduce((off, { carried, count }) => off + Math.abs(count) * this.arrays[`${carried}.${field}`].step / 2, 0);
  }

  private sumOf(loadCase: number, field: string): Sum {
    return ownFields.includes(field) ? [{ carried: loadCase, count: 1 }] : this.sums[loadCase];
  }

  private keep(name: string, make: () => Promise<Float32Array>): Promise<Float32Array> {
    let values = this.kept.get(name);
    if (!values) this.kept.set(name, (values = make()));
    return values;
  }

  private summed(name: string, sum: Sum, field: string): Promise<Float32Array> {
    return this.keep(name, async () => {
      const parts = await Promise.all(sum.map(({ carried }) => this.carried(`${carried}.${field}`)));
      const total = new Float32Array(this.solid.position.length / 3);
      parts.forEach((part, k) => part.forEach((value, i) => (total[i] += sum[k].count * value)));
      return total;
    });
  }

  private carried(name: string): Promise<Float32Array> {
    return this.keep(name, () => (name.endsWith(".mode") ? this.names(name) : this.numbers(name)));
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
