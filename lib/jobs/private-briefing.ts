import type { StaffDatabase } from '@/db/clients/staff';
import { type Analysis, listAnalyses, readParts } from '@/db/repositories/analyses';
import { readTurnaround, type Turnaround } from '@/db/repositories/briefings';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { readTests } from '@/db/repositories/facts';
import { standingPolicy } from '@/db/repositories/policies';
import { closedSeasons, type Programme } from '@/db/repositories/programme';
import { type BriefingChoice, type BriefingWish, parseBriefing, wholeNameOf } from '@/lib/briefing/choose';
import type { BriefingNumbers, Counted, Effort, GroupNumbers, PlaceCount } from '@/lib/briefing/types';
import { aggregate, type Table } from '@/lib/cube/aggregate';
import { factsOf, isTested } from '@/lib/cube/facts';
import type { Cell, Fact } from '@/lib/cube/types';
import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { Finding } from '@/lib/findings/types';
import { partOfRegion } from '@/lib/geography/part-of-region';
import { programmeRegion } from '@/lib/geography/programme-region';
import type { Region } from '@/lib/geography/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import type { Group, Pair, Period, PlaceStatus, Season } from '@/lib/vocabulary/terms';
import { periodsOf } from './analysed-periods';
import { withoutHeld } from './without-held';

export interface PrivateBriefingOrder {
  programme: Programme;
  wish: BriefingWish;
  /** Only samples from this crop, or paid for by this funder, however their letters are; null: all. */
  crop: string | null;
  funder: string | null;
  /** ISO day that the document bears. */
  date: string;
}

/**
 * The numbers of a briefing for the staff: exact counts of whole-plant tests, crops, funders, days to a result and where to
 * look next, with the findings of the last analysis. No operation is in it.
 *
 * @returns what is wrong with the wish, in words, where the store does not have what is asked for
 */
export async function readPrivateBriefing(
  db: StaffDatabase,
  { programme, wish, crop, funder, date }: PrivateBriefingOrder,
): Promise<BriefingNumbers | { problem: string }> {
  const { released, held } = withoutHeld(await readTests(db));
  const facts = factsOf(released).filter(({ assay }) => assay === 'whole plant');
  const closed = (await closedSeasons(db)).sort((a, b) => a - b);
  const { windowLength } = await standingPolicy(db);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const choice = parseBriefing(wish, scopeOf(facts, closed, windowLength), region);
  if ('problem' in choice) return choice;
  const source = { crop: known(facts, 'crop', crop), funder: known(facts, 'funder', funder) };
  for (const one of [source.crop, source.funder]) if (one !== null && 'problem' in one) return one;
  const chosen = { crop: nameOf(source.crop), funder: nameOf(source.funder) };
  const part = partOfRegion(region, choice.districts);
  const counties = new Set(part.counties.map(({ fips }) => fips));
  const own = facts.filter(
    (fact) =>
      fact.species === choice.species &&
      counties.has(fact.county) &&
      (chosen.crop === null || fact.crop === chosen.crop) &&
      (chosen.funder === null || fact.funder === chosen.funder),
  );
  const [analysis] = await listAnalyses(db);
  const setting: Setting = { db, region, part, choice, own, closed, analysis: analysis ?? null };
  const groups: GroupNumbers[] = [];
  for (const group of choice.groups) groups.push(await groupNumbers(setting, group));
  const { version, words } = await currentCaseDefinition(db, date);
  return {
    source: { kind: 'private', date, analysis: analysis?.id ?? null, held },
    ...{ programme: programme.name, simulated: programme.simulated, caseDefinition: { version, words } },
    ...{ region: part, regionName: region.name, isPart: choice.districts.length > 0 },
    ...{ wholeName: wholeNameOf(choice, region), species: choice.species, window: choice.window },
    ...{ closedSeasons: closed, ...chosen, groups },
    standings: standings(setting),
    effort: effortOf(setting, await readTurnaround(db, choice)),
  };
}

/** What a private briefing can be about: pairs and windows, crops and funders as the sheets spell them, and districts. */
export async function privateBriefingScope(db: StaffDatabase, programme: Programme) {
  const facts = factsOf(withoutHeld(await readTests(db)).released).filter(
    ({ assay }) => assay === 'whole plant',
  );
  const closed = (await closedSeasons(db)).sort((a, b) => a - b);
  const { windowLength } = await standingPolicy(db);
  const { pairs, leading, windows } = scopeOf(facts, closed, windowLength);
  const { districts } = programmeRegion({ ...programme, name: programme.regionName });
  return {
    ...{ pairs, leading, windows, districts },
    ...{ crops: spelt(facts, 'crop'), funders: spelt(facts, 'funder') },
  };
}

interface Setting {
  db: StaffDatabase;
  region: Region;
  /** The chosen districts, or the region. */
  part: Region;
  choice: BriefingChoice;
  /** Of the species, the part, the crop and the funder, in all seasons and groups. */
  own: readonly Fact[];
  closed: readonly Season[];
  analysis: Analysis | null;
}

/** The newest window of releases is offered last: it is the one that is meant where none is named. */
function scopeOf(facts: readonly Fact[], closed: readonly Season[], windowLength: number) {
  const seasons = [...new Set(facts.map(({ season }) => season))].sort((a, b) => a - b);
  const newest = closed.at(-1) ?? 0;
  const periods = periodsOf(seasons, closed, windowLength);
  const isWindow = ({ last }: Period) => last <= newest;
  const whole = (one: Period) => one.first === seasons[0] && one.last === seasons.at(-1);
  const windows = [
    ...periods.filter((one) => !isWindow(one) || whole(one)),
    ...periods.filter((one) => isWindow(one) && !whole(one)),
  ];
  const pairs = new Map<string, Pair & { tested: number }>();
  for (const fact of facts.filter(isTested)) {
    const { species, group } = fact;
    const pair = pairs.get(`${species}|${group}`) ?? { species, group, tested: 0 };
    pair.tested += 1;
    pairs.set(`${species}|${group}`, pair);
  }
  const all = [...pairs.values()].sort(
    (a, b) => (a.species < b.species ? -1 : a.species > b.species ? 1 : 0) || a.group - b.group,
  );
  const leading = [...all].sort((a, b) => b.tested - a.tested)[0] ?? null;
  return { pairs: all, leading, windows };
}

type Known = { name: string } | { problem: string } | null;

/** A crop or funder as the sheets spell it. */
function known(facts: readonly Fact[], kind: 'crop' | 'funder', asked: string | null): Known {
  if (asked === null) return null;
  const there = spelt(facts, kind);
  const name = there.find((one) => one.toLowerCase() === asked.trim().toLowerCase());
  return name === undefined
    ? { problem: `No sample has the ${kind} “${asked}”. There are: ${there.join(', ') || 'none'}.` }
    : { name };
}

function spelt(facts: readonly Fact[], kind: 'crop' | 'funder'): string[] {
  return [...new Set(facts.flatMap((fact) => fact[kind] ?? []))].sort();
}

function nameOf(one: Known): string | null {
  return one !== null && 'name' in one ? one.name : null;
}

async function groupNumbers(setting: Setting, group: Group): Promise<GroupNumbers> {
  const { db, part, choice, own, closed, analysis } = setting;
  const facts = own.filter((fact) => fact.group === group);
  const whole = cellsBy(facts, 'region', () => 'region', choice.window)[0] ?? null;
  const counties = new Map(
    cellsBy(facts, 'county', (fips) => fips, choice.window).map((cell) => [cell.place, cell]),
  );
  const spread = analysis
    ? (await readParts(db, analysis.id, { kind: 'spread', species: choice.species, group })).find(
        ({ design }) => design === null,
      )
    : undefined;
  return {
    group,
    whole: placeCount('region', 'region', wholeNameOf(choice, setting.region), whole),
    receipt: whole && { received: whole.received, testable: whole.testable },
    places: part.counties.map(({ fips, fullName, state }) =>
      placeCount('county', fips, `${fullName}, ${state}`, counties.get(fips) ?? null),
    ),
    series: series(facts, closed),
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

function cellsBy(
  facts: readonly Fact[],
  placeKind: Table['placeKind'],
  placeOf: Table['placeOf'],
  window: Period,
): Cell[] {
  const periodOf = (season: Season) => (window.first <= season && season <= window.last ? window : null);
  return aggregate(facts, { placeKind, placeOf, periodOf, byDesign: false });
}

function placeCount(kind: PlaceCount['kind'], key: string, name: string, cell: Cell | null): PlaceCount {
  const status: PlaceStatus =
    cell === null || cell.tested === 0 ? 'not screened' : cell.resistant > 0 ? 'confirmed' : 'none confirmed';
  return { kind, key, name, status, counted: cell && cell.tested > 0 ? countedOf(cell) : null };
}

function countedOf({ tested, resistant }: Pick<Cell, 'tested' | 'resistant'>): Counted {
  return { tested, resistant, share: resistant / tested, ...wilsonInterval(resistant, tested) };
}

function series(facts: readonly Fact[], closed: readonly Season[]): TrendPoint[] {
  const seasons = [...new Set([...closed, ...facts.map(({ season }) => season)])].sort((a, b) => a - b);
  return seasons.map((season) => {
    const cell = cellsBy(facts, 'region', () => 'region', { first: season, last: season })[0];
    const tested = cell?.tested ?? 0;
    const resistant = cell?.resistant ?? 0;
    const { low, high } = tested > 0 ? countedOf({ tested, resistant }) : { low: 0, high: 0 };
    return { season, withheld: false, tested, resistant, low, high, unfinished: !closed.includes(season) };
  });
}

function standings({ own, choice }: Setting): BriefingNumbers['standings'] {
  const groups = [...new Set(own.map(({ group }) => group))].sort((a, b) => a - b);
  return groups.map((group) => {
    const facts = own.filter((fact) => fact.group === group);
    const cell = cellsBy(facts, 'region', () => 'region', choice.window)[0] ?? null;
    const { status, counted } = placeCount('region', 'region', '', cell);
    return { group, status, counted, actives: cell?.actives ?? [] };
  });
}

function effortOf({ own, part, choice }: Setting, days: readonly Turnaround[]): Effort {
  const { first, last } = choice.window;
  const inside = own.filter(({ season }) => first <= season && season <= last);
  const tested = inside.filter(isTested);
  const sources = new Map<string, Fact[]>();
  for (const fact of inside) {
    const key = JSON.stringify([fact.crop, fact.funder]);
    sources.set(key, [...(sources.get(key) ?? []), fact]);
  }
  const different = (facts: readonly Fact[], of: 'population' | 'county') =>
    new Set(facts.map((fact) => fact[of])).size;
  const bySource = [...sources.values()].map((facts) => ({
    crop: facts[0]!.crop ?? 'crop not told',
    funder: facts[0]!.funder ?? 'funder not told',
    received: different(facts, 'population'),
    tested: different(facts.filter(isTested), 'population'),
    counties: different(facts.filter(isTested), 'county'),
  }));
  const populations = new Set(inside.map(({ population }) => population));
  return {
    counties: { screened: different(tested, 'county'), of: part.counties.length },
    byCrop: null,
    bySource: bySource.sort((a, b) => b.received - a.received || (a.crop < b.crop ? -1 : 1)),
    days: daysOf(days.filter(({ population }) => populations.has(population))),
  };
}

const DAY = 86_400_000;

/** Middle and middle half of the days; a sample told before it came is a slip and is left out. */
function daysOf(all: readonly Turnaround[]): Effort['days'] {
  const days = all
    .flatMap(({ received, reported }) => {
      const between = (Date.parse(reported ?? '') - Date.parse(received ?? '')) / DAY;
      return between >= 0 ? [Math.round(between)] : [];
    })
    .sort((a, b) => a - b);
  if (days.length === 0) return null;
  const at = (share: number) => days[Math.round(share * (days.length - 1))]!;
  return { samples: days.length, median: at(0.5), low: at(0.25), high: at(0.75) };
}
