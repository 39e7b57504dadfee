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

type Step = 1 | 2 | 3 | 4;

/**
 * The inks that areas of any layer are filled with, in the order of their codes: the looks; `level` for a place that
 * was judged and is like the others; the ramp of finds (`share`, darkest for most or longest); the ramp of `effort`, for
 * what is no find; and what lies lower than the rest of a map (`low`).
 */
export const TONES = [
  'blank',
  'clean',
  'hidden',
  'level',
  'confirmed',
  'share-1',
  'share-2',
  'share-3',
  'share-4',
  'effort-1',
  'effort-2',
  'effort-3',
  'effort-4',
  'low-1',
  'low-2',
] as const;

export type Tone = (typeof TONES)[number];

/** How an area is filled. `faint`: in lighter ink, because it rests on little. */
export interface Fill {
  tone: Tone;
  faint: boolean;
}

export const shareTone = (step: number): Tone => `share-${step as Step}`;
export const effortTone = (step: number): Tone => `effort-${step as Step}`;

/** Colours on white paper; pages restyle the same elements by their classes for dark screens. */
export const INK = {
  ramp: ['#e0b3c4', '#c57d9a', '#9a4470', '#5a1641'],
  effort: ['#b4c9c8', '#819fa3', '#4c6f79', '#203f4c'],
  low: ['#9cb2b6', '#6c8a93'],
  confirmed: '#9a4470',
  level: '#d7d3c1',
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

/** Colour of a tone on white paper; of a textured look its ground. */
export function inkOf(tone: Tone): string {
  const [kind, step] = tone.split('-') as [string, string | undefined];
  if (step) return RAMPS[kind as keyof typeof RAMPS][Number(step) - 1]!;
  if (tone === 'clean') return INK.clean;
  if (tone === 'level') return INK.level;
  return tone === 'confirmed' ? INK.confirmed : INK.paper;
}

const RAMPS = { share: INK.ramp, effort: INK.effort, low: INK.low };

/** Presentation attributes of a place's area. A share of null means confirmed with no public share. */
export function lookAttributes(
  look: Look,
  share: number | null,
  prefix: string,
): { class: string; fill: string } {
  return fillAttributes(plainFill(look, share), prefix);
}

/** The fill of a look by itself. */
export function plainFill(look: Look, share: number | null): Fill {
  if (look !== 'confirmed') return { tone: look, faint: false };
  return { tone: share === null ? 'confirmed' : shareTone(shareClass(share)), faint: false };
}

/** Presentation attributes of a filled area; `patterns` must have drawn the textures that it asks for. */
export function fillAttributes({ tone, faint }: Fill, prefix: string): { class: string; fill: string } {
  if (tone === 'clean') return { class: 'look-clean', fill: `url(#${prefix}dots)` };
  if (tone === 'hidden') return { class: 'look-hidden', fill: `url(#${prefix}hatch)` };
  if (tone === 'blank') return { class: 'look-blank', fill: INK.paper };
  return {
    class: `${toneClass(tone)}${faint ? ' faint' : ''}`,
    fill: faint ? `url(#${prefix}faint-${tone})` : inkOf(tone),
  };
}

/** Class by which pages restyle a tone. */
export function toneClass(tone: Tone): string {
  if (tone.startsWith('share')) return `look-confirmed ${tone}`;
  return tone.includes('-') ? tone : `look-${tone}`;
}
