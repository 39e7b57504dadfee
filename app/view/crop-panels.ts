import type { CropCell } from '@/lib/disclosure/types';
import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { OTHER_CROP } from '@/lib/vocabulary/crops';
import { estimate } from './place-numbers';
import { type Place, statePlaces } from './places';

/** One crop of a state, closed season by closed season. */
export interface CropPanel {
  /** As `CropCell`. */
  crop: string;
  points: TrendPoint[];
}

/** The crops of a state that a weed and group were screened from. */
export interface StateCrops {
  state: Place;
  /** Those with most public results first, fields without a crop of the list last. */
  crops: CropPanel[];
}

/** Crops by state, in the order of the states; a state without any is left out, and all where `only` names one. */
export function cropPanels(
  cells: readonly CropCell[],
  region: Region,
  { closedSeasons }: Pick<ReleaseHead, 'closedSeasons'>,
  only: string | null,
): StateCrops[] {
  return statePlaces(region)
    .filter(({ key }) => only === null || key === only)
    .map((state) => {
      const own = cells.filter((cell) => cell.state === state.key);
      const crops = [...new Set(own.map(({ crop }) => crop))].map((crop) => ({
        crop,
        points: closedSeasons.map((season) =>
          pointOf(
            season,
            own.find((cell) => cell.crop === crop && cell.season === season),
          ),
        ),
      }));
      return { state, crops: crops.sort(byNumbers) };
    })
    .filter(({ crops }) => crops.length > 0);
}

/** In a table that is there, an absent cell was not screened. */
function pointOf(season: number, cell: CropCell | undefined): TrendPoint {
  const { tested, resistant, low, high } = cell?.counts
    ? estimate(cell.counts.tested, cell.counts.resistant)
    : { tested: 0, resistant: 0, low: 0, high: 0 };
  return { season, withheld: cell?.status === 'withheld', tested, resistant, low, high, unfinished: false };
}

function byNumbers(a: CropPanel, b: CropPanel): number {
  const [last, its] = [a, b].map(({ crop }) => Number(crop === OTHER_CROP));
  const [own, other] = [a, b].map(({ points }) => points.reduce((sum, { tested }) => sum + tested, 0));
  return last! - its! || other! - own! || (a.crop < b.crop ? -1 : 1);
}
