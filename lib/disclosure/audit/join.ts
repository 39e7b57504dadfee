import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { Cell } from '@/lib/cube/types';
import type { PlaceTree } from '../places';
import type { ReleasedCell, ReleasedCube, ReleasedStatus, Results } from '../types';
import { type Knowledge, labelOf, readRelease } from './knowledge';

/** A release as an auditor sees it: what is public, and the private cells behind. */
export interface AuditedRelease {
  /** Null: the release that is audited, which has no number yet. */
  number: number | null;
  cube: Pick<
    ReleasedCube,
    | 'cells'
    | 'further'
    | 'furtherTables'
    | 'statuses'
    | 'windows'
    | 'areas'
    | 'seasonTables'
    | 'closedSeasons'
    | 'openSeason'
  >;
  places: PlaceTree;
  truth?: readonly Cell[];
}

/** One cell as one release has it. */
export interface Sight {
  release: number | null;
  shown: ReleasedCell;
  /** Its private cell; undefined without the truth. */
  truth: Cell | undefined;
  /** By how much the newest release with this cell holds more. A reader is taken to know it. */
  more: Results;
}

/** One cell of all releases together. All numbers are those of the newest release that has it. */
export interface JoinedCell {
  label: string;
  /** Published, or zero, in any release. */
  counts: Results | null;
  /** The same from earlier releases alone: what this one adds nothing to. */
  stood: Results | null;
  floor: Results;
  /** Fewest tested: where it is withheld there is at least one. */
  least: number;
  sights: Sight[];
}

/** Σ parts − total = more, measure by measure. */
export interface JoinedSum {
  total: number;
  parts: number[];
  more: Results;
}

/** A cell and its overlapping parts, as one release has them: less than `more` of each, no part exceeds it, and together they cover it. */
export interface JoinedCover {
  whole: number;
  parts: number[];
  /** By how much the newest release holds more, of the whole and of each part. */
  more: { whole: Results; parts: Results[] };
}

/** A public sentence about the resistant of some cells together: at least `low`, or exactly that. */
export interface JoinedSentence {
  status: ReleasedStatus;
  release: number | null;
  /** Windows of the place that this release withheld. */
  cells: number[];
  low: number;
}

/** An earlier figure of a season under way, and the later one: a reader expects that nothing was taken away. */
export interface Growth {
  earlier: number;
  later: number;
  /** later − earlier is at least this much; null where something did leave, which a reader cannot exclude. */
  least: readonly [number | null, number | null, number | null];
}

/** What a reader of all releases can write down about one pair. */
export interface Joined {
  pair: { species: string; group: number };
  cells: JoinedCell[];
  sums: JoinedSum[];
  covers: JoinedCover[];
  sentences: JoinedSentence[];
  growths: Growth[];
  /** Labels of cells of which two releases, or a release and the truth, say what cannot both be. */
  disagreeing: string[];
}

/**
 * Joins releases pair by pair. The reader is taken to know by how much every closed cell, shown or withheld, differs between
 * any two releases: the batch rule lets nothing change that may not be shown by itself, so this is the most that can ever be
 * known of changes, and no guess about them is needed. Then each earlier number is one about the newest release: a cell that is
 * published, or absent from a table that is there, in one release is known in all. Only figures of a season under way are
 * kept apart, release by release, since what came between two of them is not bounded by a reader's knowledge but by growth.
 *
 * @param releases oldest first; with several each needs its truth
 * @param only pairs (`species|group`) that are wanted; all where it is left out
 */
export function joinReleases(releases: readonly AuditedRelease[], only?: ReadonlySet<string>): Joined[] {
  const views = releases.map((release) => ({
    ...release,
    pairs: new Map(readRelease(release.cube, release.places).map((known) => [pairKey(known), known])),
    named: new Map(
      [...release.cube.cells, ...release.cube.further].map((cell) => [fullName(release, cell), cell]),
    ),
    truths: new Map((release.truth ?? []).map((cell) => [fullLabel(cell), cell])),
  }));
  const all = views.flatMap(({ pairs }) => [...pairs.keys()]);
  const keys = new Set(only ? all.filter((key) => only.has(key.replace(' ', '|'))) : all);
  return [...keys].map((key) => joinPair(views, key));
}

interface View extends AuditedRelease {
  pairs: Map<string, Knowledge>;
  named: Map<string, ReleasedCell>;
  truths: Map<string, Cell>;
}

function joinPair(views: readonly View[], key: string): Joined {
  const [species, group] = [key.split(' ')[0]!, Number(key.split(' ')[1])];
  const pair = { species, group };
  const index = new Map<string, number>();
  const cells: JoinedCell[] = [];
  const disagreeing: string[] = [];
  const labels = collectLabels(views, key);
  for (const [label, sample] of labels) {
    index.set(label, cells.length);
    const joined = joinCell(views, label, sample);
    cells.push(joined.cell);
    if (!joined.agrees) disagreeing.push(label);
  }
  const joined: Joined = {
    pair,
    cells,
    sums: [],
    covers: [],
    sentences: [],
    growths: growthsOf(views, labels, index),
    disagreeing,
  };
  const at = (view: View, cell: ReleasedCell) => index.get(nameOf(view, cell))!;
  const seen = new Set<string>();
  for (const view of [...views].reverse()) {
    const known = view.pairs.get(key);
    if (!known) continue;
    const more = (i: number) => cells[i]!.sights.find(({ release }) => release === view.number)!.more;
    for (const { total, parts } of known.sums) {
      const whole = at(view, known.cells[total]!);
      const pieces = parts.map((part) => at(view, known.cells[part]!));
      const text = `${whole}=${[...pieces].sort((a, b) => a - b).join('+')}`;
      if (seen.has(text)) continue;
      seen.add(text);
      const difference = ([0, 1, 2] as const).map(
        (m) => pieces.reduce((sum, i) => sum + more(i)[m], 0) - more(whole)[m],
      );
      joined.sums.push({ total: whole, parts: pieces, more: difference as unknown as Results });
    }
    for (const { total, parts } of known.covers) {
      const whole = at(view, known.cells[total]!);
      const pieces = parts.map((part) => at(view, known.cells[part]!));
      const since = { whole: more(whole), parts: pieces.map(more) };
      const text = `${whole}~${pieces.join('+')}~${JSON.stringify(since)}`;
      if (seen.has(text)) continue;
      seen.add(text);
      joined.covers.push({ whole, parts: pieces, more: since });
    }
    joined.sentences.push(...sentencesOf(view, known, (i) => at(view, known.cells[i]!), more));
  }
  return joined;
}

/** Every cell of every release, by the name it has in the joined system, in the order of the newest release first. */
function collectLabels(views: readonly View[], key: string): Map<string, { cell: ReleasedCell; from: View }> {
  const labels = new Map<string, { cell: ReleasedCell; from: View }>();
  for (const view of [...views].reverse()) {
    for (const cell of view.pairs.get(key)?.cells ?? []) {
      const label = nameOf(view, cell);
      if (!labels.has(label)) labels.set(label, { cell, from: view });
    }
  }
  return labels;
}

function joinCell(
  views: readonly View[],
  label: string,
  { cell, from }: { cell: ReleasedCell; from: View },
): { cell: JoinedCell; agrees: boolean } {
  const name = `${cell.species} ${cell.group} ${label}`;
  const having = cell.unfinished
    ? [from]
    : views.filter((view) => view.named.has(name) || hasTable(view.cube, cell));
  const newest = resultsOf(having.at(-1)!.truths.get(fullLabel(cell)));
  const sights: Sight[] = [];
  let counts: Results | null = null;
  let stood: Results | null = null;
  let agrees = true;
  const floor: [number, number, number] = [0, 0, 0];
  let least = 0;
  for (const view of having) {
    const truth = view.truths.get(fullLabel(cell));
    const own = resultsOf(truth);
    const more = ([0, 1, 2] as const).map((m) => newest[m] - own[m]) as unknown as Results;
    const shown = view.named.get(name);
    if (shown) sights.push({ release: view.number, shown, truth, more });
    const known = shown ? shownResults(shown) : ([0, 0, 0] as const);
    if (known) {
      if (view.truth && known.some((count, m) => count !== own[m])) agrees = false;
      const now = ([0, 1, 2] as const).map((m) => known[m] + more[m]) as unknown as Results;
      if (counts && now.some((count, m) => count !== counts![m])) agrees = false;
      counts = now;
      if (view.number !== null) stood = now;
    } else least = Math.max(least, 1 + more[0] + more[1] + more[2]);
    for (const m of [0, 1, 2] as const) floor[m] = Math.max(floor[m], more[m]);
  }
  if (views.some((view) => wasShownUnderWay(view, cell))) stood = counts;
  return { cell: { label, counts, stood, floor, least, sights }, agrees };
}

/** A figure that an earlier release showed while the season was under way is told on: its later value is no choice. */
function wasShownUnderWay({ number, cube, named }: View, cell: ReleasedCell): boolean {
  const { placeKind, period, assay, design, part } = cell;
  const isCoarse = (placeKind === 'region' || placeKind === 'state') && !part;
  const isThere = number !== null && cube.openSeason === period.first && period.first === period.last;
  if (!isThere || !isCoarse || design !== null || assay !== 'whole plant') return false;
  const then = named.get(fullName({ number }, { ...cell, unfinished: true }));
  return then === undefined || then.counts !== null;
}

/** Each earlier figure of a season under way with the next release's figure of the same cell. */
function growthsOf(
  views: readonly View[],
  labels: ReadonlyMap<string, { cell: ReleasedCell; from: View }>,
  index: ReadonlyMap<string, number>,
): Growth[] {
  return [...labels].flatMap(([label, { cell, from }]): Growth[] => {
    if (!cell.unfinished) return [];
    for (const view of views.slice(views.indexOf(from) + 1)) {
      const under = { ...cell, unfinished: true };
      const next = view.named.get(fullLabel(cell)) ?? view.named.get(fullName(view, under));
      if (!next) continue;
      const later = nameOf(view, next);
      const newest = views.filter(({ cube }) => hasTable(cube, next)).at(-1)!;
      const end = next.unfinished ? view : newest;
      const [then, now, last] = [from, view, end].map(({ truths }) => resultsOf(truths.get(fullLabel(cell))));
      const least = ([0, 1, 2] as const).map((m) =>
        now![m] >= then![m] ? last![m] - now![m] : null,
      ) as unknown as Growth['least'];
      return [{ earlier: index.get(label)!, later: index.get(later)!, least }];
    }
    return [];
  });
}

/** A status speaks of the windows of its place that its release withheld, beside those it published. */
function sentencesOf(
  view: View,
  { cells, statuses }: Knowledge,
  at: (i: number) => number,
  more: (i: number) => Results,
): JoinedSentence[] {
  const byPlace = new Map<string, number[]>();
  for (const [i, { placeKind, place, period, assay, design, part }] of cells.entries()) {
    const isWindow = view.cube.windows.some(
      ({ first, last }) => first === period.first && last === period.last,
    );
    if (!isWindow || design !== null || part || assay !== 'whole plant') continue;
    const list = byPlace.get(`${placeKind} ${place}`);
    if (list) list.push(i);
    else byPlace.set(`${placeKind} ${place}`, [i]);
  }
  return statuses.flatMap((status): JoinedSentence[] => {
    if (status.status !== 'confirmed' && status.status !== 'none confirmed') return [];
    const own = byPlace.get(`${status.placeKind} ${status.place}`) ?? [];
    const shown = own.reduce((sum, i) => sum + (cells[i]!.counts?.resistant ?? 0), 0);
    const hidden = own.filter((i) => cells[i]!.counts === null).map(at);
    if (status.status === 'confirmed' && shown > 0 && hidden.length > 0) return [];
    const since = hidden.reduce((sum, i) => sum + more(i)[0], 0);
    const low = since - shown + (status.status === 'confirmed' ? 1 : 0);
    return [{ status, release: view.number, cells: hidden, low }];
  });
}

/** Whether a reader who misses this cell in the release knows that it is zero there. */
function hasTable(cube: AuditedRelease['cube'], cell: ReleasedCell): boolean {
  const { placeKind, place, species, group, design, assay, part } = cell;
  const { first, last } = cell.period;
  const seasons = cube.closedSeasons;
  if (part && !cube.furtherTables.includes(part.of)) return false;
  if (group === SEVERAL_GROUPS && !cube.furtherTables.includes('several groups')) return false;
  if (design !== null || assay !== 'whole plant') return seasons.includes(first);
  const isWindow = cube.windows.some((window) => window.first === first && window.last === last);
  if (placeKind === 'region' || placeKind === 'state')
    return isWindow || (first === last && seasons.includes(first));
  if (placeKind === 'area')
    return (
      isWindow &&
      cube.areas.some(
        (table) =>
          table.species === species &&
          table.first === first &&
          table.areas.some((members) => members.join('+') === place),
      )
    );
  if (isWindow) return true;
  return cube.seasonTables.some(
    (table) =>
      table.placeKind === placeKind &&
      table.species === species &&
      table.group === group &&
      cube.windows.some((w) => w.first === table.first && w.first <= first && last <= w.last),
  );
}

function nameOf({ number }: Pick<AuditedRelease, 'number'>, cell: ReleasedCell): string {
  if (!cell.unfinished) return labelOf(cell);
  return `${labelOf(cell)} (under way in ${number === null ? 'this release' : `release ${number}`})`;
}

function fullName(release: Pick<AuditedRelease, 'number'>, cell: ReleasedCell): string {
  return `${cell.species} ${cell.group} ${nameOf(release, cell)}`;
}

function pairKey({ cells, statuses }: Knowledge): string {
  const { species, group } = [...cells, ...statuses][0]!;
  return `${species} ${group}`;
}

function fullLabel(cell: Pick<Cell, 'species' | 'group'> & Parameters<typeof labelOf>[0]): string {
  return `${cell.species} ${cell.group} ${labelOf(cell)}`;
}

function resultsOf(cell: Cell | undefined): Results {
  return cell ? [cell.resistant, cell.someSurvivors, cell.susceptible] : [0, 0, 0];
}

function shownResults({ counts }: ReleasedCell): Results | null {
  return (
    counts && [
      counts.resistant,
      counts.someSurvivors,
      counts.tested - counts.resistant - counts.someSurvivors,
    ]
  );
}
