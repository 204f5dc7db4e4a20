/** A picture as encoders take it: 8 bits, one plane of brightness and two of colour at half its width and height, one after the other (I420; both even). */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly planes: Uint8Array;
}

/** The mark of where the band is: a triangle that points at a system, and a line down to its strip. Pixels. */
export interface Mark {
  readonly x: number;
  /** Where the triangle begins, where it ends and the line begins, and where that ends. */
  readonly top: number;
  readonly tip: number;
  readonly bottom: number;
  /** Half the width of the triangle, and the width of the line. */
  readonly half: number;
  readonly line: number;
  /** While it waits for the band it is an outline. */
  readonly waits: boolean;
}

/** Points of a pixel, each way, at which it is asked whether the triangle covers it; our choice: 16 shades of an edge. */
const POINTS = 4;

/**
 * Paints the mark into a frame in a colour "#rrggbb", its edges smooth, so that it glides. Colours as of ITU-R BT.709 with the range of studios (section 3:
 * weights 0.2126, 0.7152, 0.0722; brightness 16 to 235, colour 16 to 240).
 */
export function paintMark({ width, height, planes }: Frame, mark: Mark, ink: string): void {
  const [light, blue, red] = signalOf(ink);
  const clipped = (value: number, most: number): number => 2 * Math.round(Math.min(most, Math.max(0, value)) / 2);
  const [left, right] = [clipped(mark.x - mark.half - 2, width), clipped(mark.x + mark.half + 2, width)];
  const [top, bottom] = [clipped(mark.top - 2, height), clipped(mark.bottom + 2, height)];
  const [half, plane] = [width / 2, (width * height) / 4];
  const blend = (at: number, to: number, share: number): void => {
    planes[at] = Math.round(planes[at]! + share * (to - planes[at]!));
  };
  for (let y = top; y < bottom; y += 2) {
    for (let x = left; x < right; x += 2) {
      let sum = 0;
      for (const [px, py] of [
        [x, y],
        [x + 1, y],
        [x, y + 1],
        [x + 1, y + 1],
      ] as const) {
        const share = covered(mark, px, py);
        if (share > 0) blend(py * width + px, light, share);
        sum += share;
      }
      if (sum === 0) continue;
      const at = width * height + (y / 2) * half + x / 2;
      blend(at, blue, sum / 4);
      blend(at + plane, red, sum / 4);
    }
  }
}

/** How much of a pixel the mark covers, 0 to 1. */
function covered({ x, top, tip, bottom, half, line, waits }: Mark, px: number, py: number): number {
  const across = overlap(px, x - line / 2, x + line / 2) * overlap(py, tip, bottom);
  if (py + 1 <= top || py >= tip) return across;
  let inside = 0;
  for (let i = 0; i < POINTS; i++)
    for (let j = 0; j < POINTS; j++) {
      const [dx, dy] = [Math.abs(px + (i + 0.5) / POINTS - x), py + (j + 0.5) / POINTS - top];
      const reach = half * (1 - dy / (tip - top));
      const isIn = dy >= 0 && dx <= reach;
      // The inner edge of an outline is as far from each side as the line is wide.
      const isHollow = waits && dy >= line && dx <= reach - line * Math.hypot(1, half / (tip - top));
      if (isIn && !isHollow) inside++;
    }
  return Math.max(across, inside / POINTS ** 2);
}

/** How much of the pixel from `at` to `at + 1` lies in a stretch. */
function overlap(at: number, from: number, to: number): number {
  return Math.max(0, Math.min(at + 1, to) - Math.max(at, from));
}

function signalOf(ink: string): readonly [light: number, blue: number, red: number] {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(ink.slice(at, at + 2), 16) / 255) as [number, number, number];
  const light = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return [16 + 219 * light, 128 + (224 * (b - light)) / 1.8556, 128 + (224 * (r - light)) / 1.5748];
}
