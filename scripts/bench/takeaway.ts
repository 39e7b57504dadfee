import { speechIn } from '@/app/messages/texts';
import { regionOf } from '@/app/region';
import { countyHandout } from '@/app/view/county-handout';
import { readBriefing } from '@/app/view/read-briefing';
import { countyOf } from '@/app/view/read-county';
import { closeClient, type PublicDatabase, publicClient } from '@/db/clients';
import { latestRelease, releaseFile } from '@/db/repositories/published';
import { parseBriefing } from '@/lib/briefing/choose';
import { handoutPdf } from '@/lib/briefing/handout-pdf';
import { BRIEFING_KINDS, briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import { archive } from '@/lib/release/files/archive';
import type { ReleaseHead } from '@/lib/release/types';
import type { Benchmark } from '../bench';
import { type Steps, startSteps } from '../support/steps';
import { withDemoDatabase } from './demo-database';

/** What a reader waits for who takes something away from the demonstration: documents, and a release as one file. */
export const takeaway: Benchmark = {
  about:
    'Documents and archive of the demonstration’s release (default size, seed 1), after the stages that make it; “again” has outlines and fonts in memory',
  async run() {
    const steps = startSteps();
    await withDemoDatabase(steps, (_, publicUrl) => timeTakeaway(steps, publicUrl));
    return [...steps.done];
  },
};

/** The same on a database that has a release of the demonstration already. */
export async function timeTakeaway(steps: Steps, publicUrl: string): Promise<void> {
  const db = publicClient(publicUrl);
  try {
    const head = (await latestRelease(db))!;
    for (const groups of [['27'], ['9', '27']]) await briefings(steps, db, head, groups);
    await handout(steps, db, head);
    await wholeRelease(steps, db, head);
  } finally {
    await closeClient(db);
  }
}

async function briefings(steps: Steps, db: PublicDatabase, head: ReleaseHead, groups: string[]) {
  const choice = parseBriefing({ species: 'KCHSC', groups, districts: [] }, head, regionOf(head));
  if ('problem' in choice) throw new Error(choice.problem);
  const what = groups.length === 1 ? 'one group' : 'two groups';
  const numbers = await steps.run(`read a briefing of ${what}`, () => readBriefing(db, head, choice));
  for (const kind of BRIEFING_KINDS)
    for (const time of ['first', 'again'])
      await steps.run(`briefing as ${kind}, ${what}, ${time}`, async (detail) => {
        const bytes = await makeBriefing(briefingOf(numbers), kind);
        detail(`${Math.round(bytes.length / 1000)} kB`);
      });
}

async function handout(steps: Steps, db: PublicDatabase, head: ReleaseHead) {
  const reading = await countyOf(db, regionOf(head).counties[0]!.fips, speechIn('en').texts.jointName);
  if (reading.state !== 'ready') throw new Error('the demonstration has no county');
  await steps.run('handout of a county', async (detail) => {
    const bytes = await handoutPdf(countyHandout(speechIn('en'), reading.report));
    detail(`${Math.round(bytes.length / 1000)} kB`);
  });
}

async function wholeRelease(steps: Steps, db: PublicDatabase, head: ReleaseHead) {
  const names = head.files.map(({ name }) => name).filter((name) => !name.endsWith('.zip'));
  const files = await Promise.all(names.map((name) => releaseFile(db, head.number, name)));
  await steps.run('whole release as ZIP', (detail) => {
    const bytes = archive(
      files.map((file) => file!),
      head.date,
    );
    detail(`${files.length} files, ${Math.round(bytes.length / 1000)} kB`);
  });
}
