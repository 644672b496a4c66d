import { png } from './png.js';

const TEAL = [11, 85, 99, 255] as const;
const PAPER = [255, 255, 255, 255] as const;
const GOLD = [242, 190, 60, 255] as const;
const CLEAR = [0, 0, 0, 0] as const;
/** Samples a pixel and axis: smooth edges at 16 pixels. */
const SAMPLES = 4;

/**
 * Draws the add-in's icon: a house on a rounded square, its wall a chart of three bars.
 *
 * @param size edge in pixels
 * @returns bytes of a PNG
 */
export function iconPng(size: number): Uint8Array {
  const pixels = new Uint8Array(size * size * 4);
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const sum = [0, 0, 0, 0];
      for (let i = 0; i < SAMPLES * SAMPLES; i++) {
        const u = (x + ((i % SAMPLES) + 0.5) / SAMPLES) / size;
        const v = (y + (Math.floor(i / SAMPLES) + 0.5) / SAMPLES) / size;
        const [r, g, b, a] = colourAt(u, v);
        sum[0]! += r * a;
        sum[1]! += g * a;
        sum[2]! += b * a;
        sum[3]! += a;
      }
      const alpha = sum[3]!;
      const at = (y * size + x) * 4;
      for (let c = 0; c < 3; c++) pixels[at + c] = alpha === 0 ? 0 : Math.round(sum[c]! / alpha);
      pixels[at + 3] = Math.round(alpha / (SAMPLES * SAMPLES));
    }
  }
  return png(pixels, size, size);
}

/** Colour at a place of the unit square, from its top left. */
function colourAt(u: number, v: number): readonly [number, number, number, number] {
  const radius = 0.2;
  const dx = Math.max(radius - u, u - (1 - radius), 0);
  const dy = Math.max(radius - v, v - (1 - radius), 0);
  if (dx * dx + dy * dy > radius * radius) return CLEAR;
  const isRoof = v >= 0.14 && v < 0.42 && Math.abs(u - 0.5) < (v - 0.14) * 1.35;
  const isWall = v >= 0.42 && v < 0.86 && u >= 0.2 && u < 0.8;
  if (!isRoof && !isWall) return TEAL;
  const bar = [
    { from: 0.27, top: 0.68 },
    { from: 0.44, top: 0.5 },
    { from: 0.61, top: 0.6 },
  ].some(({ from, top }) => u >= from && u < from + 0.12 && v >= top && v < 0.8);
  return bar ? GOLD : PAPER;
}
