import { writeFileSync } from 'node:fs';
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { releaseFindings } from '@/db/repositories/release-findings';
import { type EarlierRelease, earlierReleases } from '@/db/repositories/releases';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { programmeRegion } from '@/lib/geography/programme-region';
import { publicLoss } from '@/lib/release/public-loss';
import { unwithheldFindings } from '@/lib/release/public-loss-findings';
import { commonNameOf } from '@/lib/vocabulary/species';
import { beside, consequencesOf, consequenceTable } from './consequences';
import { lossWords } from './loss-words';
import { readPolicyFile } from './policy-file';
import { releaseFacts } from './release-facts';
import { explain } from './sheet-file';
import { programmeOf, say } from './staff-command';

/** What policies would publish and withhold of what is stored, before one is taken. Nothing is released. */
export async function consequences(
  staff: StaffDatabase,
  { policy, json }: { policy: string | undefined; json: string | undefined },
): Promise<void> {
  const standing = { name: 'standing', policy: DEFAULT_POLICY };
  // A file with a fault is told of before the long work.
  const proposals = policy
    ? [standing, { name: 'proposed', policy: readPolicyFile(policy, DEFAULT_POLICY) }]
    : beside(DEFAULT_POLICY);
  const { region, facts, closed } = await ground(staff);
  const earlier = await earlierReleases(staff);
  const closedSeasons = counted(closed, earlier[0]?.firstSeason ?? facts.reduce(earliest, Infinity));
  const found = await consequencesOf(proposals, { facts, region, closedSeasons }, (name) =>
    process.stderr.write(`  gate under the ${name} policy …\n`),
  );
  if (json) write(json, { closedSeasons, policies: found });
  say(consequenceTable(found));
  say('For the staff: how much is withheld is not public. Nothing was released.');
  if (earlier.length > 0) {
    say(
      'This is as if nothing had been released before. Closed seasons that were released are frozen as they were shown: a release that would show them under another policy is refused.',
    );
  }
}

/** What the findings of a release lose beside exact counts. */
export async function loss(staff: StaffDatabase, number: number | null): Promise<void> {
  const release = chosen(await earlierReleases(staff), number);
  const { head } = release;
  const { region, facts } = await ground(staff);
  const { tests } = head;
  if (!tests) {
    throw new UserError(
      `Release ${release.number} does not say with which seed its findings were computed.`,
      'Name a newer one.',
    );
  }
  process.stderr.write('  computing findings from exact counts …\n');
  const exact = unwithheldFindings({
    ...{ facts, region, windows: head.windows, closedSeasons: head.closedSeasons, ...tests },
    speciesName: commonNameOf,
  });
  const released = await releaseFindings(staff, release.number);
  say(
    `Release ${release.number} of ${head.date} beside exact counts of the samples stored now that may enter a release.`,
  );
  say(lossWords(publicLoss(released, exact, region)));
  say('For the staff: what is withheld can be told from this. Do not pass it on.');
}

async function ground(staff: StaffDatabase) {
  const programme = await programmeOf(staff);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  return { region, ...(await releaseFacts(staff)) };
}

function earliest(first: number, { season }: { season: number }): number {
  return Math.min(first, season);
}

/** Windows are counted from the first season, so a gap there would move them. */
function counted(closed: readonly number[], first: number): number[] {
  const after = closed.filter((season) => season >= first);
  return after.length > 0 ? after : [...closed];
}

function chosen(releases: readonly EarlierRelease[], number: number | null): EarlierRelease {
  const standing = releases.filter(({ isWithdrawn }) => !isWithdrawn);
  const found = number === null ? standing.at(-1) : standing.find((release) => release.number === number);
  if (found) return found;
  throw new UserError(
    number === null ? 'There is no release that stands.' : `There is no release ${number} that stands.`,
    standing.length === 0
      ? 'Publish one first: npm run release'
      : `Name one of these: ${standing.map((release) => release.number).join(', ')}.`,
  );
}

function write(path: string, value: unknown): void {
  try {
    writeFileSync(path, `${JSON.stringify(value, null, 1)}\n`);
  } catch (error) {
    throw explain(error as NodeJS.ErrnoException, path);
  }
}
