import type { ReleasedCell } from '@/lib/disclosure/types';
import type {
  Clustering,
  Finding,
  FirstDetection,
  MatchedChange,
  SpeedOfSpread,
  Trend,
} from '@/lib/findings/types';
import { countiesOf } from '@/lib/geography/areas';
import type { ReleaseHead } from '@/lib/release/types';
import type { Pair, Period, Season } from '@/lib/vocabulary/terms';
import { type ChangedVerdict, changedVerdicts } from './changed-verdicts';

/** A release in a few numbers, all weeds together, and what is new in it. */
export interface Overview {
  since: Season;
  weeds: number;
  groups: number;
  /** Results of the region, one population against one group each; `complete` is false where a season is withheld. */
  results: { count: number; complete: boolean };
  /** Counties from which seed was screened, of all. */
  counties: { screened: number; all: number };
  /** The newest window of closed seasons, which the rest speaks of. */
  window: Period;
  /** Pairs by what the region shows in it. */
  confirmed: Pair[];
  clean: Pair[];
  /** The pair confirmed in the largest part of its counties and areas with public numbers (ten or more of these). */
  widest: (Pair & { confirmed: number; places: number }) | null;
  speeds: SpeedOfSpread[];
  clusters: Clustering[];
  rising: Trend[];
  /** New after a clean record in the window, by pair. */
  arrived: (Pair & { detections: FirstDetection[] })[];
  /** Clear changes between the last two closed seasons. */
  changes: MatchedChange[];
  /** What findings say otherwise than in the release that stood before; null where there was none. */
  verdicts: { since: number; changed: ChangedVerdict[] } | null;
}

export interface OverviewInput {
  head: ReleaseHead;
  counties: number;
  /** Whole-plant cells of all designs together, of every pair: region, area and county. */
  cells: readonly ReleasedCell[];
  findings: readonly Finding[];
  before: { number: number; findings: readonly Finding[] } | null;
}

/** Counts a release for its front page; null where no window is closed yet. */
export function overview({ head, counties, cells, findings, before }: OverviewInput): Overview | null {
  const window = head.windows.at(-1);
  if (!window) return null;
  const inWindow = ({ period }: { period: Period }) =>
    period.first >= window.first && period.last <= window.last;
  const of = <Kind extends Finding['kind']>(kind: Kind) =>
    findings.filter((one): one is Extract<Finding, { kind: Kind }> => one.kind === kind);
  const places = cells.filter(({ placeKind }) => placeKind !== 'region');
  const seasons = cells.filter(
    ({ placeKind, period }) => placeKind === 'region' && period.first === period.last,
  );
  const now = places.filter(({ period }) => period.first === window.first && period.last === window.last);
  const whole = regionOver(cells, window);
  return {
    since: head.firstSeason,
    weeds: new Set(head.pairs.map(({ species }) => species)).size,
    groups: new Set(head.pairs.map(({ group }) => group)).size,
    results: {
      count: seasons.reduce((sum, { counts }) => sum + (counts?.tested ?? 0), 0),
      complete: seasons.every(({ counts }) => counts !== null),
    },
    counties: {
      screened: new Set(places.flatMap(({ place }) => countiesOf(place))).size,
      all: counties,
    },
    window,
    confirmed: head.pairs.filter((pair) => (whole(pair) ?? 0) > 0),
    clean: head.pairs.filter((pair) => whole(pair) === 0),
    widest: widest(head.pairs, now),
    speeds: of('speed').filter(({ speed }) => speed !== null),
    clusters: of('clustering').filter(
      (one) => one.verdict === 'lie together' && one.period.first === window.first,
    ),
    rising: of('trend').filter(({ low }) => low !== null && low > 1),
    arrived: arrivedBy(head.pairs, of('first detection').filter(inWindow)),
    changes: of('matched change').filter(({ low, high }) => (low ?? 0) > 1 || (high ?? 2) < 1),
    verdicts: before && { since: before.number, changed: changedVerdicts(before.findings, findings) },
  };
}

/** Resistant populations of the region in a window, of its cell or of its seasons; null where they are not all public. */
function regionOver(cells: readonly ReleasedCell[], window: Period) {
  return ({ species, group }: Pair): number | null => {
    const own = cells.filter(
      (cell) => cell.placeKind === 'region' && cell.species === species && cell.group === group,
    );
    const exact = own.find(({ period }) => period.first === window.first && period.last === window.last);
    const parts = exact
      ? [exact]
      : own.filter(
          ({ period }) =>
            period.first === period.last && period.first >= window.first && period.last <= window.last,
        );
    const found = parts.reduce((sum, { counts }) => sum + (counts?.resistant ?? 0), 0);
    if (found > 0) return found;
    return parts.length > 0 && parts.every(({ counts }) => counts) ? 0 : null;
  };
}

function widest(pairs: readonly Pair[], cells: readonly ReleasedCell[]): Overview['widest'] {
  const parts = pairs.map(({ species, group }) => {
    const own = cells.filter(
      (cell) => cell.species === species && cell.group === group && cell.counts !== null,
    );
    const confirmed = own.filter(({ counts }) => counts!.resistant > 0).length;
    return { species, group, confirmed, places: own.length };
  });
  const enough = parts.filter(({ places, confirmed }) => places >= FEWEST_PLACES && confirmed > 0);
  return enough.sort((a, b) => b.confirmed / b.places - a.confirmed / a.places)[0] ?? null;
}

/** Of fewer places nothing is said to be widest. */
const FEWEST_PLACES = 10;

function arrivedBy(pairs: readonly Pair[], detections: readonly FirstDetection[]): Overview['arrived'] {
  const arrived = detections.filter(({ how }) => how === 'new after a clean record');
  return pairs
    .map(({ species, group }) => ({
      ...{ species, group },
      detections: arrived.filter((one) => one.species === species && one.group === group),
    }))
    .filter(({ detections: own }) => own.length > 0);
}
