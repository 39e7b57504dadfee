import type { CellKey, CellPart } from '@/lib/cube/types';
import type { Assay, Period, Season } from '@/lib/vocabulary/terms';
import type { Policy } from './types';
import { fixedWindows } from './windows';

/** One table that the gate wants from the private cube: every cell of it with at least one received population. */
export interface LadderTable {
  placeKind: CellKey['placeKind'];
  /** Cells are wanted for exactly these periods. */
  periods: Period[];
  assays: Assay[];
  /** True where the counties of a window are joined into areas, and a county stands only where it is one by itself. */
  joined: boolean;
  /** True: one cell for each design; false: all designs together (`design` is null). */
  byDesign: boolean;
  /** One cell for each crop or active; all together where it is left out. */
  by?: CellPart['of'];
  /** True: counts populations screened against several groups (`multipleFacts`), in place of each group. */
  several?: true;
}

export interface LadderQuestion {
  policy: Policy;
  firstSeason: Season;
  closedSeasons: readonly Season[];
  openSeason: Season | null;
}

/**
 * The tables of the public ladder, fixed before anyone looks at outcomes. In a window counties are joined into areas. District × season and county × season are
 * asked for throughout the closed windows; the gate decides for each species × group × window whether such a table is
 * published. Seasons that no closed window holds yet are shown at region and state. Further tables: by crop at state ×
 * season, by active at district × window, resistance to several groups at region and state × window.
 */
export function ladder({ policy, firstSeason, closedSeasons, openSeason }: LadderQuestion): LadderTable[] {
  const seasons = [...closedSeasons].sort((a, b) => a - b).map(single);
  const windows = fixedWindows(firstSeason, closedSeasons, policy.windowLength);
  const windowed = seasons.filter(({ first }) => windows.some((w) => w.first <= first && first <= w.last));
  const open = openSeason === null ? [] : [single(openSeason)];
  const wholePlant = (placeKind: CellKey['placeKind'], periods: Period[]): LadderTable => ({
    placeKind,
    periods: distinct(periods),
    assays: ['whole plant'],
    joined: false,
    byDesign: false,
  });
  const joined = (placeKind: CellKey['placeKind']) => ({ ...wholePlant(placeKind, windows), joined: true });
  return [
    wholePlant('region', [...seasons, ...windows, ...open]),
    wholePlant('state', [...seasons, ...windows, ...open]),
    wholePlant('district', [...windows, ...windowed]),
    joined('area'),
    joined('county'),
    wholePlant('county', policy.windowLength === 1 ? [] : windowed),
    { ...wholePlant('state', seasons), byDesign: true },
    { ...wholePlant('state', seasons), assays: ['soil-applied', 'molecular'] },
    { ...wholePlant('state', seasons), by: 'crop' },
    { ...wholePlant('district', windows), by: 'active' },
    { ...wholePlant('region', windows), several: true },
    { ...wholePlant('state', windows), several: true },
  ];
}

function single(season: Season): Period {
  return { first: season, last: season };
}

function distinct(periods: Period[]): Period[] {
  return [...new Map(periods.map((period) => [`${period.first}|${period.last}`, period])).values()];
}
