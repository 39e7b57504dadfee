import { standingPolicy } from '@/db/repositories/policies';
import { earlierReleases } from '@/db/repositories/releases';
import { programmeRegion } from '@/lib/geography/programme-region';
import { consequencesOf } from '../consequences';
import { programmeOf } from '../programme-of';
import { releaseFacts } from '../release-facts';
import type { Worker } from '../work';

/** What the standing and a proposed policy would publish and withhold of what is stored. Nothing is released. */
export const policyConsequences: Worker<'policy-consequences'> = async ({ db, request, tell }) => {
  const standing = await standingPolicy(db);
  const proposals = [
    { name: 'standing', policy: standing },
    { name: 'proposed', policy: { ...standing, ...request.proposed, version: 'as proposed' } },
  ];
  const programme = await programmeOf(db);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const { facts, closed } = await releaseFacts(db);
  const [first] = await earlierReleases(db);
  // As a release would choose it: with results, closed or not.
  const firstSeason = first?.firstSeason ?? Math.min(...facts.map(({ season }) => season));
  const ground = {
    facts,
    region,
    closedSeasons: closed.filter((season) => season >= firstSeason),
    firstSeason,
  };
  const found = await consequencesOf(proposals, ground, (name) =>
    tell(
      `The gate under the ${name} policy`,
      proposals.findIndex((one) => one.name === name),
      proposals.length,
    ),
  );
  return { policies: found.map(({ pairs: _, ...consequence }) => consequence) };
};
