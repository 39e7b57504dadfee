import { ladder } from '@/lib/disclosure/ladder';
import type { Policy } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';
import type { BuiltRelease } from '@/lib/release/build';
import { ladderCells } from '@/lib/release/ladder-cells';
import type { ReleaseChanges } from '@/lib/release/release-changes';
import type { Waiting } from '@/lib/release/revision/types';
import type { Pair, Season } from '@/lib/vocabulary/terms';
import { type FindingDifference, findingChanges } from './finding-changes';
import { howShown, type ShownPair } from './how-shown';
import { policyWarning } from './policy-warning';
import { inAll, type PairShares, type PublishedShare, publishedShares } from './published-shares';

/** What whoever decides on a draft should know. Private: it counts what is withheld. */
export interface DraftReport {
  cells: number;
  findings: number;
  pairs: Pair[];
  /** Withheld cells that fail the primary rule, and those that are withheld so that these cannot be worked out. */
  primary: number;
  complementary: number;
  audit: { programs: number; publishedCells: number; withheldCells: number };
  shares: PublishedShare[];
  /** Said where the policy leaves nearly everything, or nearly nothing, withheld; drafts made before it was kept have none. */
  warning?: string | null;
  pairShares: PairShares[];
  /** What the public map loses, county by county. */
  shown: ShownPair[];
  /** Late changes that the release leaves out by the batch rule. */
  waiting: Waiting[];
  /** Against the release before; null where there is none. */
  changes: ReleaseChanges | null;
  findingChanges: FindingDifference[];
}

/** The report with what else waits. */
export interface FullDraftReport extends DraftReport {
  /** Results that stay out because their first find in the state awaits its second run. */
  held: number;
  /** Samples whose senders have not been told their results, by season. */
  unreported: { season: Season; populations: number }[];
}

/** Holds a release that is built against the exact counts of what entered it, and against the release before. */
export function draftReport(of: {
  built: BuiltRelease;
  region: Region;
  policy: Policy;
  /** Of the release before; null where there is none. */
  findingsBefore: readonly Finding[] | null;
}): DraftReport {
  const { built, region, policy, findingsBefore } = of;
  const { draft, audit, figures, revision } = built;
  const { cube, head, findings } = draft;
  const { firstSeason, closedSeasons, openSeason, areas } = cube;
  const tables = ladder({ policy, firstSeason, closedSeasons, openSeason });
  const cells = ladderCells(revision.facts, tables, region, areas);
  const pairShares = publishedShares({ cells, cube, policy });
  const shares = inAll(pairShares);
  const sum = (name: 'primary' | 'complementary') => figures.reduce((total, pair) => total + pair[name], 0);
  return {
    cells: cube.cells.length,
    findings: findings.length,
    pairs: head.pairs,
    primary: sum('primary'),
    complementary: sum('complementary'),
    audit: {
      programs: audit.programs,
      publishedCells: audit.publishedCells,
      withheldCells: audit.withheldCells,
    },
    shares,
    warning: policyWarning(shares, policy, closedSeasons.length),
    pairShares,
    shown: howShown(revision.facts, cube, region),
    waiting: revision.waiting,
    changes: head.changes ?? null,
    findingChanges: findingsBefore ? findingChanges(findingsBefore, findings) : [],
  };
}
