import { StatsError } from '@/lib/stats/errors';
import type { Season } from '@/lib/vocabulary/terms';
import { addComparisons, type Comparison, compare, sum, WAYS, type Way, waysOf } from './back-test/compare';
import { chanceOfAsMany, type Draw } from './back-test/draws';
import { lookNext } from './look-next';
import type { LookNextInput, LookNextOrder, PlaceToLookAt } from './look-next/types';

export interface BackTestInput extends Omit<LookNextInput, 'season' | 'exposure' | 'names'> {
  /** Heads of the list that are looked at, as so many places; 10 and 20 unless given. */
  heads?: readonly number[];
  /** Simulations only: the share of populations that are resistant, season × place, as it was planted. */
  planted?: Float64Array;
}

export interface HeadOfList {
  places: number;
  /** Places found in the season, among those that were tested in it. */
  found: Comparison;
  /** Expected to be found of so many drawn at random from places tested as much in the season (1, 2–3, 4 and more). */
  foundTestedAlike: number;
  /** Of the head of the whole list: how many were tested in the season, and found. */
  tested: number;
  testedFound: number;
  /** By the planted shares, of the whole list: places where it had arrived, and finds to expect if so many populations were tested in each. */
  arrived: Comparison | null;
  toFind: Comparison | null;
}

export type { Comparison } from './back-test/compare';

export interface BackTestSeason {
  season: Season;
  order: LookNextOrder;
  /** Why there is no model; null where there is one. */
  noModel: string | null;
  /** That new finds come near earlier ones, as `LookNextModel`. */
  p: number | null;
  /** Places never found before that were tested in the season; how many of them were found. */
  candidates: number;
  found: number;
  /** Finds to expect among them with the numbers that were tested; and by nearness alone. */
  expected: number | null;
  expectedByNearness: number | null;
  heads: HeadOfList[];
}

export interface BackTest {
  seasons: BackTestSeason[];
  /** Over the seasons that carry a model, by head. */
  totals: (Omit<HeadOfList, 'tested' | 'testedFound'> & {
    /** Chance that places drawn at random, from those near finds, or from those tested as much, hold as many finds or more. */
    pRandom: number;
    pNearFinds: number;
    pTestedAlike: number;
  })[];
  modelled: number;
}

/**
 * How many of the places that the list of where to look names turn out found? Each season is looked at with what was
 * known before it alone, and the head of its list is held against what was found in it.
 *
 * Only places that were tested in the season can be found in it, so list, random choice, neighbours of finds and rule
 * of thumb choose among these: the list is read past places that were not tested. None of them knows how many populations
 * came from where. Where testing follows finds (a find next door brings samples), all profit alike. Planted shares, of a
 * simulation, need no testing: they judge the whole list.
 *
 * @returns seasons from the second on that have candidates
 * @policy Totals are over seasons with a model. Chances of as many: exact sums of hypergeometric counts, season by season.
 * @throws StatsError as `lookNext`; `bad argument` for heads below 1, planted shares of another length or outside 0 … 1
 * @cost the seasons × that of `lookNext`
 */
export function backTest({ heads = [10, 20], planted, ...input }: BackTestInput): BackTest {
  const { counts, populations = 4 } = input;
  check(heads, counts.tested.length, planted);
  const draws = heads.map((): Record<Way, Draw[]> => ({ random: [], nearFinds: [], testedAlike: [] }));
  const indexOf = new Map(input.places.map((place, i) => [place, i]));
  const seasons: BackTestSeason[] = [];
  for (let t = 1; t < counts.seasons.length; t += 1) {
    const season = counts.seasons[t]!;
    const looked = lookNext({ ...input, counts: before(counts, t), season });
    const cell = ({ place }: PlaceToLookAt) => t * counts.places + indexOf.get(place)!;
    const isTested = (place: PlaceToLookAt) => counts.tested[cell(place)]! > 0;
    const isFound = (place: PlaceToLookAt) => Number(counts.resistant[cell(place)]! > 0);
    const candidates = looked.places.filter(isTested);
    if (candidates.length === 0) continue;
    const expected = (key: 'chance' | 'chanceByNearness') =>
      candidates.reduce((sum, place) => {
        const times = counts.tested[cell(place)]! / populations;
        return sum - Math.expm1(times * Math.log1p(-place[key]!));
      }, 0);
    seasons.push({
      season,
      order: looked.order,
      noModel: looked.noModel?.message ?? null,
      p: looked.model?.p ?? null,
      candidates: candidates.length,
      found: sum(candidates, isFound),
      expected: looked.model ? expected('chance') : null,
      expectedByNearness: looked.model ? expected('chanceByNearness') : null,
      heads: heads.map((head, k) => {
        const ways = waysOf(candidates, head, isFound, (place) => counts.tested[cell(place)]!);
        if (looked.model) for (const way of WAYS) draws[k]![way].push(...ways[way]);
        const top = looked.places.slice(0, head).filter(isTested);
        const share = (place: PlaceToLookAt) => planted![cell(place)]!;
        const onTruth = (value: (share: number) => number) =>
          planted ? compare(looked.places, head, (place) => value(share(place))) : null;
        return {
          places: head,
          found: compare(candidates, head, isFound),
          foundTestedAlike: ways.testedAlike.reduce(
            (all, { total, marked, drawn }) => all + (drawn * marked) / total,
            0,
          ),
          ...{ tested: top.length, testedFound: sum(top, isFound) },
          arrived: onTruth((one) => Number(one > 0)),
          toFind: onTruth((one) => 1 - (1 - one) ** populations),
        };
      }),
    });
  }
  const modelled = seasons.filter(({ order }) => order === 'hazard');
  const totals = heads.map((places, k) => {
    const own = modelled.map((season) => season.heads[k]!);
    const found = addComparisons(own.map((head) => head.found));
    return {
      ...{ places, found, foundTestedAlike: own.reduce((all, head) => all + head.foundTestedAlike, 0) },
      arrived: planted ? addComparisons(own.map((head) => head.arrived!)) : null,
      toFind: planted ? addComparisons(own.map((head) => head.toFind!)) : null,
      pRandom: chanceOfAsMany(found.list, draws[k]!.random),
      pNearFinds: chanceOfAsMany(found.list, draws[k]!.nearFinds),
      pTestedAlike: chanceOfAsMany(found.list, draws[k]!.testedAlike),
    };
  });
  return { seasons, totals, modelled: modelled.length };
}

function before(
  { seasons, places, tested, resistant }: BackTestInput['counts'],
  t: number,
): BackTestInput['counts'] {
  return {
    seasons: Array.from(seasons).slice(0, t),
    places,
    tested: tested.slice(0, t * places),
    resistant: resistant.slice(0, t * places),
  };
}

function check(heads: readonly number[], cells: number, planted: Float64Array | undefined): void {
  if (!heads.every((head) => Number.isInteger(head) && head >= 1)) {
    throw new StatsError(
      'bad argument',
      `Got heads of ${heads.join(', ')}; expected whole numbers of 1 or more.`,
    );
  }
  if (planted && !(planted.length === cells && planted.every((share) => share >= 0 && share <= 1))) {
    throw new StatsError('bad argument', `Got ${planted.length} planted shares; expected ${cells} of 0 … 1.`);
  }
}
