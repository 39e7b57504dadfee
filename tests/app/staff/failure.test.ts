import postgres from 'postgres';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { staff } from '@/app/staff/messages/en';
import { addressOf, staffDoors } from '../support/staff-doors';
import { openStaffSite, type StaffSite } from '../support/staff-site';

const PAGES = staffDoors(`${import.meta.dirname}/../../..`).filter(({ kind }) => kind === 'page');

let site: StaffSite;
let cookie: string;
beforeAll(async () => {
  site = await openStaffSite();
  cookie = await site.cookieOf(site.people.administrator);
}, 600_000);
afterAll(() => site?.close());

const get = async (path: string) => {
  const answer = await fetch(site.url + path, { headers: { cookie }, redirect: 'manual' });
  return { path, status: answer.status, text: await answer.text() };
};

describe('a page of the staff side that fails', () => {
  it('says so without details, and is there again when what it needs is', async () => {
    const owner = postgres(site.database.ownerUrl, { max: 1, onnotice: () => {} });
    onTestFinished(() => owner.end());
    const paths = [...new Set(PAGES.map(({ file }) => addressOf(file)))];
    await owner`alter schema intake rename to intake_elsewhere`;
    const broken = [];
    for (const path of paths) broken.push(await get(path));
    await owner`alter schema intake_elsewhere rename to intake`;

    const failed = broken.filter(({ status }) => status === 500);
    expect(failed.length).toBeGreaterThan(4);
    for (const { path, text } of failed) {
      expect(text, path).toContain(staff.failed.heading);
      expect(text, path).toContain(staff.failed.text);
      expect(text, path).not.toMatch(/relation|intake|select |postgres|node_modules|at \w+ \(/i);
    }
    for (const { path } of failed) expect((await get(path)).status, path).not.toBe(500);
  });
});
