import type { CellKey } from '@/lib/cube/types';
import { ASSAYS, DESIGNS } from '@/lib/vocabulary/terms';

const KINDS: readonly CellKey['placeKind'][] = ['region', 'state', 'district', 'area', 'county'];

/** Text key of a cell, unique in a cube. */
export function cellKeyText(key: CellKey): string {
  const { placeKind, place, period, species, group, assay, design, part } = key;
  const whole = [placeKind, place, `${period.first}-${period.last}`, species, group, assay, design ?? 'all'];
  return [...whole, ...(part ? [part.of, part.name] : [])].join('|');
}

/** Whether a cell holds all designs, crops and actives together. */
export function isWhole({ design, part }: Pick<CellKey, 'design' | 'part'>): boolean {
  return design === null && part === undefined;
}

/** The one order of released cells. It looks at keys only, so it cannot depend on a withheld value. */
export function compareCells(a: CellKey, b: CellKey): number {
  return (
    compareText(a.species, b.species) ||
    a.group - b.group ||
    ASSAYS.indexOf(a.assay) - ASSAYS.indexOf(b.assay) ||
    KINDS.indexOf(a.placeKind) - KINDS.indexOf(b.placeKind) ||
    compareText(a.place, b.place) ||
    a.period.first - b.period.first ||
    a.period.last - b.period.last ||
    designRank(a) - designRank(b) ||
    compareText(a.part?.of ?? '', b.part?.of ?? '') ||
    compareText(a.part?.name ?? '', b.part?.name ?? '')
  );
}

/** Order by code units: the same on every machine and in every language. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function designRank({ design }: CellKey): number {
  return design === null ? -1 : DESIGNS.indexOf(design);
}
