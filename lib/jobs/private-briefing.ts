import type { StaffDatabase } from '@/db/clients/staff';
import { type Analysis, listAnalyses, readParts } from '@/db/repositories/analyses';
import {
  type BriefingCounts,
  type BriefingScope,
  briefingScope,
  countBriefing,
  countHeld,
  type GroupCount,
  type TurnaroundCount,
} from '@/db/repositories/briefing-counts';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { standingPolicy } from '@/db/repositories/policies';
import { closedSeasons, type Programme } from '@/db/repositories/programme';
import { type BriefingChoice, type BriefingWish, parseBriefing, wholeNameOf } from '@/lib/briefing/choose';
import type { BriefingNumbers, Counted, Effort, GroupNumbers, PlaceCount } from '@/lib/briefing/types';
import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { Finding } from '@/lib/findings/types';
import { partOfRegion } from '@/lib/geography/part-of-region';
import { programmeRegion } from '@/lib/geography/programme-region';
import type { Region } from '@/lib/geography/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import type { Group, Period, PlaceStatus, Season } from '@/lib/vocabulary/terms';
import { periodsOf } from './analysed-periods';

export interface PrivateBriefingOrder {
  programme: Programme;
  wish: BriefingWish;
  /** Only samples from this crop, or paid for by this funder, however their letters are; null: all. */
  crop: string | null;
  funder: string | null;
  /** ISO day that the document bears. */
  date: string;
  /** Where it was read already: it takes as long as the counts. */
  scope?: PrivateBriefingScope | null;
}

export type PrivateBriefingScope = Awaited<ReturnType<typeof privateBriefingScope>>;

/**
 * The numbers of a briefing for the staff: exact counts of whole-plant tests, crops, funders, days to a result and where to
 * look next, with the findings of the last analysis. No operation is in it.
 *
 * @returns what is wrong with the wish, in words, where the store does not have what is asked for
 */
export async function readPrivateBriefing(
  db: StaffDatabase,
  { programme, wish, crop, funder, date, scope: given }: PrivateBriefingOrder,
): Promise<BriefingNumbers | { problem: string }> {
  const scope = given ?? (await privateBriefingScope(db, programme));
  const { region, closed } = scope;
  const choice = parseBriefing(wish, scope, region);
  if ('problem' in choice) return choice;
  const source = { crop: known('crop', scope.crops, crop), funder: known('funder', scope.funders, funder) };
  for (const one of [source.crop, source.funder]) if (one !== null && 'problem' in one) return one;
  const chosen = { crop: nameOf(source.crop), funder: nameOf(source.funder) };
  const part = partOfRegion(region, choice.districts);
  const counts = await countBriefing(db, {
    ...{ species: choice.species, window: choice.window, ...chosen },
    counties: part.counties.map(({ fips }) => fips),
  });
  const [analysis] = await listAnalyses(db);
  const setting: Setting = { db, region, part, choice, counts, closed, analysis: analysis ?? null };
  const groups: GroupNumbers[] = [];
  for (const group of choice.groups) groups.push(await groupNumbers(setting, group));
  const { version, words } = await currentCaseDefinition(db, date);
  return {
    source: { kind: 'private', date, analysis: analysis?.id ?? null, held: await countHeld(db) },
    ...{ programme: programme.name, simulated: programme.simulated, caseDefinition: { version, words } },
    ...{ region: part, regionName: region.name, isPart: choice.districts.length > 0 },
    ...{ wholeName: wholeNameOf(choice, region), species: choice.species, window: choice.window },
    ...{ closedSeasons: closed, ...chosen, groups },
    standings: standings(setting),
    effort: effortOf(setting),
  };
}

/** What a private briefing can be about: pairs and windows, crops and funders as the sheets spell them, and the region. */
export async function privateBriefingScope(db: StaffDatabase, programme: Programme) {
  const scope = await briefingScope(db);
  const closed = (await closedSeasons(db)).sort((a, b) => a - b);
  const { windowLength } = await standingPolicy(db);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  return { ...withWindows(scope, closed, windowLength), closed, region };
}

interface Setting {
  db: StaffDatabase;
  region: Region;
  /** The chosen districts, or the region. */
  part: Region;
  choice: BriefingChoice;
  /** Of the species, the part, the crop and the funder. */
  counts: BriefingCounts;
  closed: readonly Season[];
  analysis: Analysis | null;
}

/** The newest window of releases is offered last: it is the one that is meant where none is named. */
function withWindows(
  { pairs, seasons, ...rest }: BriefingScope,
  closed: readonly Season[],
  windowLength: number,
) {
  const newest = closed.at(-1) ?? 0;
  const periods = periodsOf(seasons, closed, windowLength);
  const isWindow = ({ last }: Period) => last <= newest;
  const whole = (one: Period) => one.first === seasons[0] && one.last === seasons.at(-1);
  const windows = [
    ...periods.filter((one) => !isWindow(one) || whole(one)),
    ...periods.filter((one) => isWindow(one) && !whole(one)),
  ];
  const leading = [...pairs].sort((a, b) => b.results - a.results)[0] ?? null;
  return { ...rest, pairs, leading, windows };
}

type Known = { name: string } | { problem: string } | null;

/** A crop or funder as the sheets spell it. */
function known(kind: 'crop' | 'funder', there: readonly string[], asked: string | null): Known {
  if (asked === null) return null;
  const name = there.find((one) => one.toLowerCase() === asked.trim().toLowerCase());
  return name === undefined
    ? { problem: `No sample has the ${kind} “${asked}”. There are: ${there.join(', ') || 'none'}.` }
    : { name };
}

function nameOf(one: Known): string | null {
  return one !== null && 'name' in one ? one.name : null;
}

async function groupNumbers(setting: Setting, group: Group): Promise<GroupNumbers> {
  const { db, part, choice, counts, closed, analysis } = setting;
  const all = counts.groups.filter((one) => one.group === group);
  const inside = all.filter(({ season }) => isIn(choice.window, season));
  const whole = summed(inside);
  const spread = analysis
    ? (await readParts(db, analysis.id, { kind: 'spread', species: choice.species, group })).find(
        ({ design }) => design === null,
      )
    : undefined;
  return {
    group,
    whole: placeCount('region', 'region', wholeNameOf(choice, setting.region), whole),
    receipt: inside.length === 0 ? null : { received: whole.received, testable: whole.testable },
    places: part.counties.map(({ fips, fullName, state }) =>
      placeCount(
        'county',
        fips,
        `${fullName}, ${state}`,
        summed(inside.filter(({ county }) => county === fips)),
      ),
    ),
    series: series(all, closed),
    findings: await findingsOf(setting, group),
    lookNext: spread?.lookNext ?? null,
  };
}

/** Of all samples: an analysis knows no crops and funders. */
async function findingsOf({ db, choice, analysis }: Setting, group: Group): Promise<Finding[]> {
  if (!analysis) return [];
  const which = { species: choice.species, group };
  const maps = await readParts(db, analysis.id, { kind: 'map', ...which });
  const spreads = await readParts(db, analysis.id, { kind: 'spread', ...which });
  return [
    ...maps.filter(({ design }) => design === null).map(({ clustering }) => clustering),
    ...spreads
      .filter(({ design }) => design === null)
      .flatMap(({ firstDetections, trend, change, speed }) => [
        ...firstDetections,
        trend,
        speed,
        ...(change ? [change] : []),
      ]),
  ];
}

type Tally = Pick<GroupCount, 'received' | 'testable' | 'tested' | 'resistant'>;

function summed(counts: readonly Tally[]): Tally {
  const sum = { received: 0, testable: 0, tested: 0, resistant: 0 };
  for (const { received, testable, tested, resistant } of counts) {
    sum.received += received;
    sum.testable += testable;
    sum.tested += tested;
    sum.resistant += resistant;
  }
  return sum;
}

function isIn({ first, last }: Period, season: Season): boolean {
  return first <= season && season <= last;
}

function placeCount(kind: PlaceCount['kind'], key: string, name: string, tally: Tally): PlaceCount {
  return { kind, key, name, ...standing(tally) };
}

function standing(tally: Tally): Pick<PlaceCount, 'status' | 'counted'> {
  const status: PlaceStatus =
    tally.tested === 0 ? 'not screened' : tally.resistant > 0 ? 'confirmed' : 'none confirmed';
  return { status, counted: tally.tested > 0 ? countedOf(tally) : null };
}

function countedOf({ tested, resistant }: Pick<Tally, 'tested' | 'resistant'>): Counted {
  return { tested, resistant, share: resistant / tested, ...wilsonInterval(resistant, tested) };
}

function series(counts: readonly GroupCount[], closed: readonly Season[]): TrendPoint[] {
  const seasons = [...new Set([...closed, ...counts.map(({ season }) => season)])].sort((a, b) => a - b);
  return seasons.map((season) => {
    const { tested, resistant } = summed(counts.filter((one) => one.season === season));
    const { low, high } = tested > 0 ? countedOf({ tested, resistant }) : { low: 0, high: 0 };
    return { season, withheld: false, tested, resistant, low, high, unfinished: !closed.includes(season) };
  });
}

function standings({ counts, choice }: Setting): BriefingNumbers['standings'] {
  const groups = [...new Set(counts.groups.map(({ group }) => group))];
  const activesOf = new Map(counts.actives.map(({ group, actives }) => [group, actives]));
  return groups.map((group) => {
    const inside = counts.groups.filter((one) => one.group === group && isIn(choice.window, one.season));
    return { group, ...standing(summed(inside)), actives: activesOf.get(group) ?? [] };
  });
}

function effortOf({ counts, part, choice }: Setting): Effort {
  const screened = counts.groups.filter(({ season, tested }) => tested > 0 && isIn(choice.window, season));
  const bySource = counts.sources.map(({ crop, funder, ...one }) => ({
    crop: crop ?? 'crop not told',
    funder: funder ?? 'funder not told',
    ...one,
  }));
  return {
    counties: { screened: new Set(screened.map(({ county }) => county)).size, of: part.counties.length },
    byCrop: null,
    bySource: bySource.sort((a, b) => b.received - a.received || (a.crop < b.crop ? -1 : 1)),
    days: daysOf(counts.turnaround),
  };
}

const DAY = 86_400_000;

/** Middle and middle half of the days; a sample told before it came is a slip and is left out. */
function daysOf(all: readonly TurnaroundCount[]): Effort['days'] {
  const days = all
    .flatMap(({ received, reported, populations }) => {
      const between = (Date.parse(reported ?? '') - Date.parse(received ?? '')) / DAY;
      return between >= 0 ? Array<number>(populations).fill(Math.round(between)) : [];
    })
    .sort((a, b) => a - b);
  if (days.length === 0) return null;
  const at = (share: number) => days[Math.round(share * (days.length - 1))]!;
  return { samples: days.length, median: at(0.5), low: at(0.25), high: at(0.75) };
}
