import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { type ReleaseInput, saveRelease } from '@/db/repositories/releases';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import type { Finding, Trend } from '@/lib/findings/types';
import { publicFindings } from '@/lib/release/public-findings';
import { commonNameOf } from '@/lib/vocabulary/species';
import { type TestDatabase, testDatabase } from '../support/database';
import { inventedRegion, inventedRelease } from './invented-release';
import { serve } from './support/site';

// Both releases are invented. What they find is computed from their cells as a release's findings are.
let database: TestDatabase;
let staff: StaffDatabase;
let site: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  site = await serve(database.publicUrl);
}, 300_000);
afterAll(async () => {
  await site?.close();
  await closeClient(staff);
  await database.drop();
});

/** The invented release, but Palmer amaranth of group 10 was found nowhere before 2022. */
function laterRelease(): ReleaseInput {
  const release = inventedRelease();
  const { cube, head } = release.draft;
  const cells = cube.cells.map((cell) => {
    const isEarly = cell.species === 'AMAPA' && cell.group === 10 && cell.period.last < 2022 && !cell.part;
    return isEarly && cell.counts ? { ...cell, counts: { ...cell.counts, resistant: 0 } } : cell;
  });
  const changed = releasedCubeFromStore({ ...cube, cells });
  const order = { ...head.tests!, region: inventedRegion(), speciesName: commonNameOf };
  return { ...release, draft: { head, cube: changed, findings: publicFindings(changed, order) } };
}

const trendOf = (findings: readonly Finding[]) =>
  findings.find((one): one is Trend => one.kind === 'trend' && one.species === 'AMAPA' && one.group === 10)!;

/** What a front page says is new, sentence by sentence. */
async function news(path: string): Promise<string[]> {
  const html = await (await fetch(site.url + path)).text();
  const part = /<aside class="fresh"[\s\S]*?<\/aside>/.exec(html)![0];
  return [...part.matchAll(/<li>(.*?)<\/li>/g)].map(([, words]) => words!.replaceAll(/[\u00a0\u202f]/g, ' '));
}

describe('what is new on the front page', () => {
  it('names no earlier release in the first one, and in the second what its findings really say otherwise', async () => {
    const first = await news('/');
    expect(first.filter((words) => words.includes('in release'))).toEqual([]);

    const later = laterRelease();
    const [before, now] = [trendOf(inventedRelease().draft.findings), trendOf(later.draft.findings)];
    // The odds of 1.0 lie in the first interval, and below the second.
    expect([before.low! <= 1 && before.high! >= 1, now.low! > 1]).toEqual([true, true]);
    await saveRelease(staff, later);
    const second = await news('/');
    expect(second).toContain(
      'Palmer amaranth, group 10, over the seasons: a rise; in release 1 no clear change.',
    );
    expect(await news('/es')).toContainEqual(expect.stringMatching(/grupo 10.*publicación 1/));
    // Of kochia nothing was changed, so nothing is told.
    expect(second.filter((words) => /^Kochia.*in release/.test(words))).toEqual([]);
    expect(second.length).toBeGreaterThan(first.length);
  }, 300_000);
});
