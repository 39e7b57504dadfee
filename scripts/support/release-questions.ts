import { writeFileSync } from 'node:fs';
import type { StaffDatabase } from '@/db/clients';
import { standingPolicy } from '@/db/repositories/policies';
import { earlierReleases } from '@/db/repositories/releases';
import { programmeRegion } from '@/lib/geography/programme-region';
import type { Region } from '@/lib/geography/types';
import { beside, consequencesOf } from '@/lib/jobs/consequences';
import { lossOfRelease } from '@/lib/jobs/finding-loss';
import { programmeOf } from '@/lib/jobs/programme-of';
import { releaseFacts } from '@/lib/jobs/release-facts';
import { explain } from '@/lib/jobs/sheet-file';
import { consequenceTable } from './consequence-table';
import { lossWords } from './loss-words';
import { readPolicyFile } from './policy-file';
import { say } from './staff-command';

/** What policies would publish and withhold of what is stored, before one is taken. Nothing is released. */
export async function consequences(
  staff: StaffDatabase,
  { policy, json }: { policy: string | undefined; json: string | undefined },
): Promise<void> {
  const stands = await standingPolicy(staff);
  const standing = { name: 'standing', policy: stands };
  // A file with a fault is told of before the long work.
  const proposals = policy
    ? [standing, { name: 'proposed', policy: readPolicyFile(policy, stands) }]
    : beside(stands);
  const region = await regionOfProgramme(staff);
  const { facts, closed } = await releaseFacts(staff);
  const earlier = await earlierReleases(staff);
  // As a release would choose it: with results, closed or not.
  const firstSeason = earlier[0]?.firstSeason ?? Math.min(...new Set(facts.map(({ season }) => season)));
  const closedSeasons = closed.filter((season) => season >= firstSeason);
  const ground = { facts, region, closedSeasons, firstSeason };
  const found = await consequencesOf(proposals, ground, (name) =>
    process.stderr.write(`  gate under the ${name} policy …\n`),
  );
  if (json) write(json, { firstSeason, closedSeasons, policies: found });
  say(consequenceTable(found));
  say('For the staff: how much is withheld is not public. Nothing was released.');
  if (earlier.length > 0) {
    say(
      'This is as if nothing had been released before. In closed seasons that were released, what is shown stays shown and what is withheld stays withheld: a policy counts in full from the seasons that close next.',
    );
  }
}

/** What the findings of a release lose beside exact counts. */
export async function loss(staff: StaffDatabase, number: number | null): Promise<void> {
  process.stderr.write('  computing findings from exact counts …\n');
  const found = await lossOfRelease(staff, number);
  const what = found.ofWhatEntered
    ? 'the samples that entered it'
    : 'the samples stored now, since it is older than the record of what entered';
  say(`Release ${found.number} of ${found.date} beside exact counts of ${what}.`);
  say(lossWords(found));
  say('For the staff: what is withheld can be told from this. Do not pass it on.');
}

async function regionOfProgramme(staff: StaffDatabase): Promise<Region> {
  const programme = await programmeOf(staff);
  return programmeRegion({ ...programme, name: programme.regionName });
}

function write(path: string, value: unknown): void {
  try {
    writeFileSync(path, `${JSON.stringify(value, null, 1)}\n`);
  } catch (error) {
    throw explain(error as NodeJS.ErrnoException, path);
  }
}
