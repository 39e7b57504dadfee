import { type Front, frontOf } from '@/lib/figures/front';
import { type Look, SHARE_CLASSES } from '@/lib/figures/looks';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { frontSwatch, swatch } from '@/lib/figures/swatch';
import { trendFigure } from '@/lib/figures/trend-figure';
import { list, number } from '@/lib/findings/wording';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import { findingOf, ofAll, shareWords } from './headlines';
import type { BriefingNumbers, GroupNumbers, PlaceCount } from './types';

/** What every figure of simulated data bears. */
export const STAMP = 'Simulated data';

/** The map of one group by county and area, as wide as it is asked for in its own units. */
export function groupMap(numbers: BriefingNumbers, group: GroupNumbers, width: number): string {
  const { region, window, species, simulated, wholeName } = numbers;
  const name = `${commonNameOf(species)}, ${groupName(group.group)}, ${periodLabel(window)}`;
  return mapFigure({
    region,
    grain: 'county',
    size: { width, height: fittedHeight(region, width) },
    places: group.places.map((place) => ({
      place: place.key,
      name: place.name,
      status: place.status,
      share: place.counted?.share ?? null,
      words: placeWords(place),
    })),
    title: `Map of ${wholeName}: ${name}`,
    description: mapWords(numbers, group),
    front: groupFront(numbers, group),
    hiddenWords: 'No public information.',
    stamp: simulated ? STAMP : null,
    chosen: null,
    prefix: `map-${group.group}-`,
  });
}

/**
 * The front of a group, where a speed is told: at the end of the briefing's seasons and of up to three runs of as many
 * before them, none of them outside the seasons that the speed was computed from.
 */
export function groupFront({ window }: BriefingNumbers, group: GroupNumbers): Front | null {
  const told = findingOf(group, 'speed');
  if (!told) return null;
  const length = window.last - window.first + 1;
  const seasons = [3, 2, 1, 0].map((runs) => window.last - runs * length);
  return frontOf(
    told,
    seasons.filter((season) => told.from! <= season && season <= told.to!),
  );
}

/** What the map of a group says to those who do not see it: where it is confirmed, and the rings of its front. */
export function mapWords(numbers: BriefingNumbers, group: GroupNumbers): string {
  const { places } = group;
  const confirmed = places.filter(({ status }) => status === 'confirmed').map(({ name }) => name);
  const clean = places.filter(({ status }) => status === 'none confirmed').map(({ name }) => name);
  const told = (words: string, names: readonly string[]) =>
    names.length === 0 ? `${words} nowhere.` : `${words} ${number(names.length)}: ${names.join('; ')}.`;
  const seasons = groupFront(numbers, group)?.origins[0]?.rings.map(({ label }) => label) ?? [];
  const front =
    seasons.length === 0
      ? ''
      : ` Rings where the front stood at the end of ${list(seasons).replaceAll('; ', ', ')}.`;
  return `${told('Confirmed in', confirmed)} ${told('Screened with none confirmed in', clean)}${front}`;
}

/** The share of one group season by season; `size` as in `TrendFigure`. */
export function groupTrend(
  numbers: BriefingNumbers,
  { group, series }: GroupNumbers,
  size?: { width: number; height: number },
): string {
  const { species, wholeName, simulated } = numbers;
  return trendFigure({
    points: series,
    title: `${commonNameOf(species)}, group ${group}, ${wholeName}: share resistant by season`,
    description: seriesWords(series),
    words: {
      screened: 'screened',
      withheld: 'withheld',
      unfinished: 'still being screened',
      point: (point) => `${point.season}: ${number(point.resistant)} of ${number(point.tested)}`,
    },
    stamp: simulated ? STAMP : null,
    prefix: `trend-${group}-`,
    ...(size && { size }),
  });
}

/** Every season of a series in words. */
export function seriesWords(series: GroupNumbers['series']): string {
  return series
    .map(({ season, withheld, tested, resistant, unfinished }) => {
      const told = withheld
        ? 'withheld'
        : tested === 0
          ? 'none screened'
          : `${number(resistant)} of ${number(tested)} resistant`;
      return `${season}: ${told}${unfinished ? ', still being screened' : ''}`;
    })
    .join('; ');
}

export interface LegendEntry {
  mark: string;
  words: string;
}

/** The looks of the maps of these groups, each with what it means. */
export function legend(numbers: BriefingNumbers, groups: readonly GroupNumbers[]): LegendEntry[] {
  const { source } = numbers;
  const entry = (words: string, look: Look, share: number | null, id: string) => ({
    mark: swatch(look, share, `key-${id}-`),
    words,
  });
  const classes = SHARE_CLASSES.map((from, i) => {
    const to = SHARE_CLASSES[i + 1];
    const range =
      to === undefined
        ? `${100 * from} % and more`
        : from === 0
          ? `under ${100 * to} %`
          : `${100 * from} to ${100 * to - 1} %`;
    return entry(
      i === 0 ? `${range} of the screened populations resistant` : range,
      'confirmed',
      from,
      String(i),
    );
  });
  return [
    ...classes,
    entry('screened, none confirmed: none found is not none there', 'clean', null, 'clean'),
    ...(source.kind === 'release'
      ? [entry('no public information: the same look whatever was found', 'hidden', null, 'hidden')]
      : []),
    entry('not screened: no samples, so nothing is known', 'blank', null, 'blank'),
    ...(groups.some((group) => groupFront(numbers, group))
      ? [
          {
            mark: frontSwatch(),
            words: `where the front stood at the end of the season written on it${ofAll(numbers)}; the cross is where it began`,
          },
        ]
      : []),
  ];
}

function placeWords({ counted }: PlaceCount): string {
  return counted ? `${number(counted.resistant)} of ${number(counted.tested)}: ${shareWords(counted)}` : '';
}
