import { encode } from 'uqr';

/** Modules of the quiet zone around a QR code (ISO/IEC 18004). */
export const QUIET_ZONE = 4;

/**
 * A text as QR code: an SVG path with a square of side 1 for each dark module, the quiet zone included. Its size stands
 * before the path, as `45|M4 4h1v1h-1z…`.
 */
export function qrPath(text: string): string {
  const { size, data } = encode(text, { ecc: 'M', border: QUIET_ZONE });
  const squares = data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : '')));
  return `${size}|${squares.join('')}`;
}
