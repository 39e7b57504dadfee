import { larkspurBasinDistricts } from '@/lib/geography/districts/larkspur-basin';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';
import type { Region } from '@/lib/geography/types';
import type { Season } from '@/lib/vocabulary/terms';
import { gridDistricts } from './grid-districts';

export type Size = 'small' | 'default' | 'rich' | 'national';
export const SIZES: readonly Size[] = ['small', 'default', 'rich', 'national'];

/** The invented programme; its day is the day as of which the sheets are read. */
export const PROGRAMME = 'Larkspur Basin screening cooperative (simulated)';
export const DEMO_DAY = '2026-02-10';

export interface SizePlan {
  firstSeason: Season;
  lastClosed: Season;
  /** The season under way, or null. Half of the populations that it received have their results in. */
  openSeason: Season | null;
  /** Populations received in the first and in the last closed season; the seasons between lie on a line. */
  populationsFirst: number;
  populationsLast: number;
  /** Results (rows) in all, each season an equal part; null = as many as the populations need. */
  rowsInAll: number | null;
  /** The 17 planted species × group pairs, or 150 with these among them. */
  pairs: 'planted' | 'national';
}

/** How much each size sends, and when. */
export const SIZE_PLANS: Readonly<Record<Size, SizePlan>> = {
  small: plan({ firstSeason: 2019, openSeason: null, populationsFirst: 120, populationsLast: 120 }),
  default: plan({ firstSeason: 2013, openSeason: 2025, populationsFirst: 250, populationsLast: 1000 }),
  rich: plan({ firstSeason: 2013, openSeason: 2025, populationsFirst: 2500, populationsLast: 10_000 }),
  national: plan({
    firstSeason: 2005,
    openSeason: null,
    populationsFirst: 71_800,
    populationsLast: 71_800,
    rowsInAll: 5_000_000,
    pairs: 'national',
  }),
};

/** Seasons of a size, ascending, the one under way last. */
export function seasonsOf({ firstSeason, lastClosed, openSeason }: SizePlan): Season[] {
  const last = openSeason ?? lastClosed;
  return Array.from({ length: last - firstSeason + 1 }, (_, i) => firstSeason + i);
}

/** Populations that the laboratory receives in a season. */
export function populationsIn(size: SizePlan, season: Season): number {
  const steps = Math.max(1, size.lastClosed - size.firstSeason);
  const progress = Math.min(1, (season - size.firstSeason) / steps);
  return Math.round(size.populationsFirst + progress * (size.populationsLast - size.populationsFirst));
}

/** The counties that a size covers; each comes with invented districts. */
export function scenarioRegion(size: Size): Region {
  if (size === 'national') {
    const codes = states().flatMap((state) => (Number(state.fips) <= 56 ? [state.code] : []));
    const name = 'United States (simulated data)';
    return loadRegion({ name, states: codes, districts: gridDistricts(loadRegion({ name, states: codes })) });
  }
  const codes = size === 'small' ? ['SD'] : ['KS', 'NE', 'SD', 'CO'];
  const districts = larkspurBasinDistricts().filter((district) => codes.includes(district.state));
  const name = size === 'small' ? 'Larkspur Basin north (simulated)' : 'Larkspur Basin (simulated)';
  return loadRegion({ name, states: codes, districts });
}

function plan(
  part: Pick<SizePlan, 'firstSeason' | 'openSeason' | 'populationsFirst' | 'populationsLast'> &
    Partial<SizePlan>,
): SizePlan {
  return { lastClosed: 2024, rowsInAll: null, pairs: 'planted', ...part };
}
