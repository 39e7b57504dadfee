import { type Color, converter, differenceCiede2000, parse } from 'culori';

/** How colours look: to most, without one of the three cones, on a grey photocopy. */
export const VISIONS = ['normal', 'protan', 'deutan', 'tritan', 'grey'] as const;
export type Vision = (typeof VISIONS)[number];

const linear = converter('lrgb');
const lab = converter('lab65');
const ciede2000 = differenceCiede2000();
const LUMINANCE = [0.2126, 0.7152, 0.0722] as const;

/**
 * What becomes of linear red, green and blue. Without a cone: Machado, Oliveira & Fernandes 2009, IEEE Transactions on
 * Visualization and Computer Graphics 15, 1291–1298, supplementary tables, severity 1.0. Grey: luminance, IEC 61966-2-1.
 */
const SEEN: Record<Exclude<Vision, 'normal'>, readonly (readonly [number, number, number])[]> = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  grey: [LUMINANCE, LUMINANCE, LUMINANCE],
};

/** A colour `#rrggbb` as it is seen. */
export function seen(colour: string, vision: Vision): Color {
  const { r, g, b } = linear(parse(colour)!);
  if (vision === 'normal') return { mode: 'lrgb', r, g, b };
  const [red, green, blue] = SEEN[vision].map((row) =>
    Math.min(1, Math.max(0, row[0] * r + row[1] * g + row[2] * b)),
  );
  return { mode: 'lrgb', r: red!, g: green!, b: blue! };
}

/** Difference of two colours as they are seen: CIEDE2000 (CIE 142-2001; Sharma, Wu & Dalal 2005). */
export function difference(a: string, b: string, vision: Vision): number {
  return ciede2000(seen(a, vision), seen(b, vision));
}

/** CIE lightness L* of a colour, 0–100: what is left of it on a grey photocopy. */
export function lightness(colour: string): number {
  return lab(parse(colour)!).l;
}
