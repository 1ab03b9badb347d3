/** x, y, z. */
export type Vector = [number, number, number];
