// What the program laid into the page: JSON, and arrays as deflated byte planes in base64.

export interface ArrayAbout {
  bytes: number;
  count: number;
  low: number;
  step: number;
}

export type Codes = Uint8Array | Uint16Array | Uint32Array;

function text(id: string): string {
  const block = document.getElementById(id);
  if (!block) throw new Error(`the page has no block "${id}"`);
  return block.textContent ?? "";
}

export const kindOfPage = (): string => text("kind");
export const readJson = <T>(id: string): T => JSON.parse(text(id)) as T;

function fromBase64(coded: string): Uint8Array<ArrayBuffer> {
  const characters = atob(coded);
  const bytes = new Uint8Array(characters.length);
  for (let i = 0; i < characters.length; i++) bytes[i] = characters.charCodeAt(i);
  return bytes;
}

async function inflated(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** The whole numbers of one array, as written by tools/results/page_arrays.cpp. */
export async function readCodes(name: string, about: ArrayAbout): Promise<Codes> {
  const planes = await inflated(fromBase64(text(`array.${name}`)));
  if (planes.length !== about.bytes * about.count)
    throw new Error(`array "${name}" has ${planes.length} bytes instead of ${about.bytes * about.count}`);
  if (about.bytes === 1) return planes;
  const codes = about.bytes === 2 ? new Uint16Array(about.count) : new Uint32Array(about.count);
  for (let plane = 0; plane < about.bytes; plane++) {
    const start = plane * about.count;
    for (let i = 0; i < about.count; i++) codes[i] |= planes[start + i] << (8 * plane);
  }
  return codes;
}

/** In place: each number becomes the sum of itself and all before, modulo its size. */
export function summed(codes: Codes): Codes {
  for (let i = 1; i < codes.length; i++) codes[i] += codes[i - 1];
  return codes;
}
