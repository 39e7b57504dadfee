import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { CellKey } from '@/lib/cube/types';
import type { ActiveCell, CropCell, MultipleCell, ReleasedCube } from './types';

/** Tables that go with the cells of the ladder: which of them a release has is written in it. */
export const FURTHER_TABLES = ['crop', 'active', 'several groups'] as const;
export type FurtherTable = (typeof FURTHER_TABLES)[number];

/** The further table in which a cell stands; null for one of the cells themselves. */
export function furtherTableOf({ group, part }: Pick<CellKey, 'group' | 'part'>): FurtherTable | null {
  return group === SEVERAL_GROUPS ? 'several groups' : (part?.of ?? null);
}

/** By crop at state × season, in the order of released cells. */
export function cropCells({ further }: Pick<ReleasedCube, 'further'>): CropCell[] {
  return further
    .filter(({ part }) => part?.of === 'crop')
    .map(({ place, period, species, group, part, status, counts }) => {
      return { state: place, season: period.first, species, group, crop: part!.name, status, counts };
    });
}

/** By active at district × window. */
export function activeCells({ further }: Pick<ReleasedCube, 'further'>): ActiveCell[] {
  return further
    .filter(({ part }) => part?.of === 'active')
    .map(({ place, period, species, group, part, status, counts }) => {
      return { district: place, period, species, group, active: part!.name, status, counts };
    });
}

/** Resistance to several groups at region and state × window. */
export function multipleCells({ further }: Pick<ReleasedCube, 'further'>): MultipleCell[] {
  return further
    .filter((cell) => furtherTableOf(cell) === 'several groups')
    .map(({ placeKind, place, period, species, status, counts }) => ({
      ...{ placeKind: placeKind as MultipleCell['placeKind'], place, period, species, status },
      counts: counts && {
        tested: counts.tested,
        none: counts.tested - counts.resistant - counts.someSurvivors,
        one: counts.someSurvivors,
        several: counts.resistant,
      },
    }));
}
