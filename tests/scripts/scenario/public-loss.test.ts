import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import type { Clustering, SpeedOfSpread } from '@/lib/findings/types';
import { gateOnly } from '@/lib/jobs/gate-only';
import { publicFindings } from '@/lib/release/public-findings';
import { countiesWhere, publicLoss } from '@/lib/release/public-loss';
import { unwithheldFindings } from '@/lib/release/public-loss-findings';
import { scenarioFacts } from '@/scripts/support/scenario-facts';

// What was planted in the demonstration (simulated) must be found in what the gate lets out of it, and in that alone.
const { region, truth, facts: all, closedSeasons } = scenarioFacts('default', 1);
const { standingCluster, front } = truth;
const facts = all.filter(
  ({ publicShare, species }) => publicShare && [standingCluster.species, front.species].includes(species),
);
const { cube } = await gateOnly({ facts, region, closedSeasons, policy: DEFAULT_POLICY });
const order = { region, seed: 1, permutations: 999, speciesName: (code: string) => code };
const released = publicFindings(cube, order);
const planted = facts.filter(({ species, group }) =>
  [standingCluster, front].some((pair) => pair.species === species && pair.group === group),
);
const exact = unwithheldFindings({ ...order, facts: planted, windows: cube.windows, closedSeasons });
const loss = publicLoss(released, exact, region);

describe('the planted cluster, from released cells alone', () => {
  it('is found, and at least half of its counties are among those of the window that shows it most strongly', () => {
    const maps = released.filter(
      (finding): finding is Clustering =>
        finding.kind === 'clustering' &&
        finding.species === standingCluster.species &&
        finding.group === standingCluster.group,
    );
    expect(maps).toHaveLength(cube.windows.length);
    const strongest = [...maps].sort((a, b) => (a.p ?? 1) - (b.p ?? 1) || b.places - a.places)[0]!;
    expect(strongest.verdict).toBe('lie together');
    const named = countiesWhere(strongest, region);
    const shared = standingCluster.counties.filter((fips) => named.has(fips));
    expect(shared.length).toBeGreaterThanOrEqual(standingCluster.counties.length / 2);
  });

  it('is named beside the exact counts with counties that both see', () => {
    const own = loss.clusterings.filter(({ species }) => species === standingCluster.species);
    expect(own.some(({ exact: known, released: shown }) => known === shown && known === 'lie together')).toBe(
      true,
    );
  });
});

describe('the planted front, from released districts alone', () => {
  it('moves at a speed whose interval holds the planted one and not zero', () => {
    const speed = released.find(
      (finding): finding is SpeedOfSpread =>
        finding.kind === 'speed' && finding.species === front.species && finding.group === front.group,
    )!;
    expect(speed.grain).toBe('district');
    expect(speed.low!).toBeGreaterThan(0);
    expect(speed.low!).toBeLessThan(front.kmPerYear);
    expect(speed.high!).toBeGreaterThan(front.kmPerYear);
  });

  it('agrees with the speed by exact counts', () => {
    const own = loss.speeds.find(({ species, group }) => species === front.species && group === front.group);
    expect(own).toMatchObject({ agree: true });
  });
});
