import type { Cell } from '@/lib/cube/types';
import { isWhole } from './cell-order';

/** Loss of information when a cell is withheld, before its size counts: fine cells first, states last. */
const GRAIN_LOSS = { county: 1, area: 1, district: 4, state: 60, region: 400 } as const;

/** Loss of information when this cell is withheld. */
export function lossOf(cell: Pick<Cell, 'placeKind' | 'tested' | 'design' | 'part'>): number {
  return (isWhole(cell) ? GRAIN_LOSS[cell.placeKind] : 0.5) * (1 + Math.log2(1 + cell.tested));
}

/** What a price is multiplied by in an attempt: 1 in the first, then 0.5 to 1.5, the same on every run. */
export function leaning(unit: number, attempt: number): number {
  if (attempt === 0) return 1;
  let mix = Math.imul(unit + 7, 0x85ebca6b) ^ Math.imul(attempt + 3, 0x9e3779b1);
  mix = Math.imul(mix ^ (mix >>> 16), 0x7feb352d);
  return 0.5 + ((mix ^ (mix >>> 15)) >>> 0) / 2 ** 32;
}
