/**
 * CIE 1976 lightness of an sRGB colour: 0 is black, 100 is white; it is what a grey print keeps of a colour.
 * Source: IEC 61966-2-1 (sRGB) and CIE 15 (L*).
 *
 * @param rgb RRGGBB, sixteen-based
 * @example lightness('FFFFFF') // 100
 */
export function lightness(rgb: string): number {
  const y = relativeLuminance(rgb);
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (y * 24389) / 27;
}

/** Luminance relative to white, 0 to 1 (IEC 61966-2-1). */
export function relativeLuminance(rgb: string): number {
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => {
    const channel = Number.parseInt(rgb.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
