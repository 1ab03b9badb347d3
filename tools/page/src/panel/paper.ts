// The view as it goes on paper.

/** Rows and columns of a picture that hold anything. */
function drawnBox({ data, width, height }: ImageData): { left: number; top: number; right: number; bottom: number } {
  const box = { left: width, top: height, right: 0, bottom: 0 };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (data[4 * (y * width + x) + 3] === 0) continue;
      box.left = Math.min(box.left, x);
      box.right = Math.max(box.right, x + 1);
      box.top = Math.min(box.top, y);
      box.bottom = y + 1;
    }
  }
  return box.left < box.right ? box : { left: 0, top: 0, right: width, bottom: height };
}

/** Copy what is drawn on a canvas, with a little air round it. @param marks  draws on top. */
export function copyDrawn(
  from: HTMLCanvasElement,
  to: HTMLCanvasElement,
  marks: (context: CanvasRenderingContext2D, pixels: number) => void,
): void {
  const whole = new OffscreenCanvas(from.width, from.height).getContext("2d")!;
  whole.drawImage(from, 0, 0);
  const pixels = from.width / Math.max(from.clientWidth, 1);
  const air = Math.round(16 * pixels);
  const box = drawnBox(whole.getImageData(0, 0, from.width, from.height));
  to.width = box.right - box.left + 2 * air;
  to.height = box.bottom - box.top + 2 * air;
  const context = to.getContext("2d")!;
  context.translate(air - box.left, air - box.top);
  context.drawImage(from, 0, 0);
  marks(context, pixels);
}
