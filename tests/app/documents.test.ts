import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { saveRelease, withdrawRelease } from '@/db/repositories/releases';
import { CAUTIONS } from '@/lib/vocabulary/cautions';
import { CAUTIONS_ES } from '@/lib/vocabulary/cautions-es';
import { type TestDatabase, testDatabase } from '../support/database';
import { readPdf } from '../support/read-pdf';
import { inventedRelease } from './invented-release';
import { serve } from './support/site';

// Release 1 stands; release 2, the same again, was withdrawn. Both are invented.
const NOTE = 'Counts of two counties were exchanged (invented).';
let database: TestDatabase;
let staff: StaffDatabase;
let site: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  await saveRelease(staff, inventedRelease());
  await withdrawRelease(staff, { number: 2, note: NOTE, at: '2026-03-02T00:00:00Z' });
  site = await serve(database.publicUrl);
}, 600_000);
afterAll(async () => {
  await site?.close();
  await closeClient(staff);
  await database.drop();
});
const get = (path: string, init: RequestInit = {}) => fetch(site.url + path, init);
const bytesOf = async (response: Response) => new Uint8Array(await response.arrayBuffer());
/** Words as a reader sees them: a PDF’s text keeps neither line ends nor the word joiners of an interval. */
const flat = (words: string) => words.replaceAll('\u2060', '').replace(/\s+/g, ' ').trim();

describe('a briefing by address', () => {
  const path = '/releases/1/briefing.pdf?species=KCHSC&group=9&group=27&window=2022-2024';

  it('is a PDF that is asked for again by its ETag, and the same for the same choice', async () => {
    const response = await get(path);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('application/pdf');
    expect(response.headers.get('content-disposition')).toContain('briefing-kchsc-9-27-release-1.pdf');
    const pdf = await readPdf(await bytesOf(response));
    expect(pdf.pages).toHaveLength(2);
    expect(pdf.pages[0]!.text).toContain('Kochia and herbicide groups 9 and 27');
    const etag = response.headers.get('etag')!;
    expect((await get(path, { headers: { 'If-None-Match': etag } })).status).toBe(304);
    const again = await get('/releases/1/briefing.pdf?group=27,9&species=KCHSC');
    expect(again.headers.get('etag')).toBe(etag);
  });

  it('comes as slides too', async () => {
    const response = await get(path.replace('.pdf', '.pptx'));
    expect(response.headers.get('content-type')).toContain('presentationml.presentation');
    expect(
      Buffer.from(await bytesOf(response))
        .subarray(0, 2)
        .toString(),
    ).toBe('PK');
  });

  it('is refused in words where the release does not have what is asked for', async () => {
    const response = await get('/releases/1/briefing.pdf?species=KCHSC&group=99');
    expect(response.status).toBe(400);
    expect(await response.text()).toContain('There is no herbicide group of KCHSC “99”. There are: 9, 27.');
    expect((await get('/releases/7/briefing.pdf')).status).toBe(404);
  });

  it('is chosen on a page that works without script, in both languages', async () => {
    const html = await (await get('/briefing?species=KCHSC')).text();
    expect(html).toContain('action="/releases/1/briefing.pdf"');
    expect(html).toMatch(/formaction="\/releases\/1\/briefing\.pptx"/i);
    expect(html).toMatch(/<input[^>]*name="group"[^>]*value="27"/);
    expect(await (await get('/es/briefing')).text()).toContain('Un informe para una junta');
  });
});

describe('the handout of a county', () => {
  it.each([
    ['en', '/counties/31055/handout.pdf', CAUTIONS, 'Simulated data'],
    ['es', '/es/counties/31055/handout.pdf', CAUTIONS_ES, 'Datos simulados'],
  ])('is one tagged page in %s with all cautions', async (lang, path, cautions, mark) => {
    const response = await get(path);
    expect(response.headers.get('content-type')).toBe('application/pdf');
    const pdf = await readPdf(await bytesOf(response));
    expect(pdf).toMatchObject({ lang, isMarked: true, title: 'Douglas County, NE' });
    expect(pdf.pages).toHaveLength(1);
    const [{ text, elements }] = pdf.pages as [(typeof pdf.pages)[number]];
    expect(text).toContain(mark);
    for (const caution of cautions) expect(flat(text)).toContain(flat(caution));
    for (const role of ['H1', 'H2', 'Table', 'TH', 'Figure', 'L']) {
      expect(elements.map((one) => one.role)).toContain(role);
    }
    expect(pdf.fontFiles).toBe(pdf.fonts.length);
  });

  it('says what the county’s page says', async () => {
    const html = await (await get('/counties/31055')).text();
    const pdf = await readPdf(await bytesOf(await get('/counties/31055/handout.pdf')));
    const shares = [...html.matchAll(/<dd>(\d+ of \d+: [^<]*)<\/dd>/g)].map(([, words]) => flat(words!));
    expect(shares.length).toBeGreaterThan(0);
    for (const words of shares) expect(flat(pdf.pages[0]!.text)).toContain(words);
    expect(html).toContain('href="/counties/31055/handout.pdf"');
    expect((await get('/counties/99999/handout.pdf')).status).toBe(404);
  });
});

describe('a withdrawn release', () => {
  it.each([
    '/releases/2/briefing.pdf',
    '/releases/2/briefing.pptx',
    '/releases/2/map.svg?species=KCHSC&group=9',
    '/releases/2/SHA256SUMS',
    '/releases/2/fencerow-release-2-simulated.zip',
    '/outlines/2.json',
    '/api/v1/releases/2/cells',
  ])('is a tombstone with its reason at %s', async (path) => {
    const response = await get(path);
    expect(response.status).toBe(410);
    expect(await response.text()).toContain(NOTE);
  });
});
