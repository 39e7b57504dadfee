import type { PlaceStatus } from '@/lib/vocabulary/terms';

/**
 * The four looks of a place. They differ by texture and lightness, so that they survive a grey photocopy:
 * a solid ramp, dots on a light ground, a diagonal hatch, blank paper.
 */
export type Look = 'confirmed' | 'clean' | 'hidden' | 'blank';

const LOOK_OF: Record<PlaceStatus, Look> = {
  confirmed: 'confirmed',
  'none confirmed': 'clean',
  'no public information': 'hidden',
  'not screened': 'blank',
};

export function lookOf(status: PlaceStatus): Look {
  return LOOK_OF[status];
}

/** Lower bounds of the classes of share, 0–1; a share belongs to the last class that it reaches. */
export const SHARE_CLASSES: readonly number[] = [0, 0.25, 0.5, 0.75];

/** Class of a share in 0–1, from 1 for the lowest to `SHARE_CLASSES.length`. */
export function shareClass(share: number): number {
  return SHARE_CLASSES.filter((bound) => share >= bound).length;
}

/** Colours on white paper; pages restyle the same elements by their classes for dark screens. */
export const INK = {
  ramp: ['#e3b9c8', '#c9819d', '#9a4470', '#5a1641'],
  confirmed: '#9a4470',
  clean: '#f3f0e4',
  dot: '#6d6a58',
  hatch: '#a19d8b',
  paper: '#ffffff',
  county: '#b9b5a4',
  district: '#7d7967',
  state: '#3c3a30',
  text: '#2b2a22',
  quiet: '#5f5c4e',
  grid: '#dcd8c8',
  mark: '#7a2454',
} as const;

/** Presentation attributes of a place's area. A share of null means confirmed with no public share. */
export function lookAttributes(
  look: Look,
  share: number | null,
  prefix: string,
): { class: string; fill: string } {
  if (look === 'clean') return { class: 'look-clean', fill: `url(#${prefix}dots)` };
  if (look === 'hidden') return { class: 'look-hidden', fill: `url(#${prefix}hatch)` };
  if (look === 'blank') return { class: 'look-blank', fill: INK.paper };
  if (share === null) return { class: 'look-confirmed', fill: INK.confirmed };
  const step = shareClass(share);
  return { class: `look-confirmed share-${step}`, fill: INK.ramp[step - 1]! };
}
