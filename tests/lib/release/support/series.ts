import type { Fact } from '@/lib/cube/types';
import type { PlaceTree } from '@/lib/disclosure/places';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import type { Policy } from '@/lib/disclosure/types';
import { type Guarded, guard } from '@/lib/release/guard';
import { type Recoding, recodedAreas, recodedFacts, recodedPast } from '@/lib/release/recoded';
import type { PastRelease } from '@/lib/release/revision/types';
import { inALine } from '../../disclosure/support/invented';

// Everything made here is invented.

export interface Step {
  facts: readonly Fact[];
  /** Last closed season. */
  closed: number;
  /** Places as they are coded when this release is made. */
  tree?: PlaceTree;
  /** Counties that have another code now. */
  recoding?: Recoding;
}

/** Releases made one after another by the real line, each beside all before it. */
export class Series {
  readonly past: PastRelease[] = [];
  readonly made: Guarded[] = [];

  constructor(
    private readonly tree: PlaceTree,
    private readonly firstSeason: number,
    private readonly policy: Policy = DEFAULT_POLICY,
  ) {}

  /** Makes the next release; it is kept only where its audit is clean. */
  async release({ facts, closed, tree = this.tree, recoding = new Map() }: Step): Promise<Guarded> {
    const shared = facts.filter(({ publicShare }) => publicShare);
    const newest = Math.max(...shared.map(({ season }) => season));
    const { policy, firstSeason } = this;
    const closedSeasons = Array.from({ length: closed - firstSeason + 1 }, (_, i) => firstSeason + i);
    const openSeason = newest > closed ? newest : null;
    const made = await guard({
      facts: recodedFacts(shared, recoding),
      region: { ...tree, ...inALine(tree) },
      question: { policy, firstSeason, closedSeasons, openSeason },
      keptAreas: recodedAreas(this.keptAreas(), recoding),
      past: recodedPast(this.past, recoding),
    });
    if (made.audit.clean) {
      this.made.push(made);
      const number = this.past.length + 1;
      this.past.push({ number, cube: made.cube, places: tree, facts: made.revision.facts });
    }
    return made;
  }

  private keptAreas() {
    const tables = this.past.flatMap(({ cube }) => cube.areas);
    return [
      ...new Map([...tables].reverse().map((table) => [`${table.species}|${table.first}`, table])).values(),
    ];
  }
}

/** A new sample; `over` says what matters. */
export function sample(population: string, over: Partial<Fact>): Fact {
  return {
    ...{ population, county: '10000', season: 2015, species: 'KCHSC', group: 9, assay: 'whole plant' },
    ...{
      design: 'submitted',
      crop: null,
      funder: null,
      operation: `farm of ${population}`,
      result: 'susceptible',
    },
    ...{ actives: ['glyphosate'], publicShare: true },
    ...over,
  };
}

/** What a release shows, as text: keys, looks and counts of every cell, and every status. */
export function shownText({ cube }: Guarded): string[] {
  const { cells, statuses } = cube;
  return [...cells.map((cell) => JSON.stringify(cell)), ...statuses.map((status) => JSON.stringify(status))];
}
