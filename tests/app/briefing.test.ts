import { createHash } from 'node:crypto';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { regionOf } from '@/app/region';
import { readBriefing } from '@/app/view/read-briefing';
import { closeClient, type PublicDatabase, publicClient, staffClient } from '@/db/clients';
import { addErratum } from '@/db/repositories/errata';
import { latestRelease, releaseByNumber, releasedCells } from '@/db/repositories/published';
import { saveRelease } from '@/db/repositories/releases';
import { effortWords } from '@/lib/briefing/answers';
import { briefingQuery, parseBriefing, wishOf } from '@/lib/briefing/choose';
import { UnknownSentence } from '@/lib/briefing/edit-sentences';
import { groupFront } from '@/lib/briefing/figures';
import { briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import type { BriefingNumbers, GroupNumbers } from '@/lib/briefing/types';
import type { ReleasedCell } from '@/lib/disclosure/types';
import type { SpeedOfSpread } from '@/lib/findings/types';
import type { ReleaseHead } from '@/lib/release/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { type TestDatabase, testDatabase } from '../support/database';
import { type PdfReading, readPdf } from '../support/read-pdf';
import { inventedRelease } from './invented-release';

/** The release is invented; what is checked is that documents say what it says. */
let database: TestDatabase;
let db: PublicDatabase;
let head: ReleaseHead;
let numbers: BriefingNumbers;
let pdf: PdfReading;
let bytes: Uint8Array;

const WISH = { species: 'KCHSC', groups: ['9,27'], window: '2022-2024', districts: [] };

beforeAll(async () => {
  database = await testDatabase();
  const staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  const text = 'The invented table of 2019 came late.';
  await addErratum(staff, { release: 1, date: '2026-03-01', text, by: 'invented' });
  await closeClient(staff);
  db = publicClient(database.publicUrl);
  head = (await latestRelease(db))!;
  const choice = parseBriefing(WISH, head, regionOf(head));
  if ('problem' in choice) throw new Error(choice.problem);
  numbers = await readBriefing(db, head, choice);
  bytes = await makeBriefing(briefingOf(numbers), 'pdf');
  pdf = await readPdf(bytes);
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const textOf = ({ pages }: PdfReading) => pages.map(({ text }) => text).join(' ');
const flat = (words: string) => words.replace(/\s+/g, ' ').trim();

describe('the numbers of a briefing', () => {
  it.each([9, 27])(
    'are the released cells of group %i, and nothing where those are withheld',
    async (group) => {
      const cells = (await releasedCells(db, 1, { species: 'KCHSC', group })).filter(
        ({ period, assay, design }) =>
          period.first === 2022 && period.last === 2024 && assay === 'whole plant' && !design,
      );
      const own = numbers.groups.find((one) => one.group === group)!;
      const region = cells.find(({ placeKind }) => placeKind === 'region');
      expect(own.whole.counted?.resistant).toBe(region?.counts?.resistant);
      let withheld = 0;
      for (const { kind, key, counted, status } of own.places) {
        const cell = cells.find(({ placeKind, place }) => placeKind === kind && place === key);
        expect(counted?.tested ?? null).toBe(cell?.counts?.tested ?? null);
        if (cell?.status !== 'withheld') continue;
        withheld += 1;
        expect(status).toBe('no public information');
      }
      expect(withheld).toBeGreaterThan(0);
      const seasons = (await releasedCells(db, 1, { species: 'KCHSC', group })).filter(
        ({ placeKind, period, assay, design }) =>
          placeKind === 'region' && period.first === period.last && assay === 'whole plant' && !design,
      );
      expect(own.series.length).toBe(7);
      for (const { season, tested, resistant, low, high } of own.series) {
        const counts = seasons.find(({ period }) => period.first === season)?.counts;
        expect([tested, resistant]).toEqual([counts?.tested ?? 0, counts?.resistant ?? 0]);
        if (counts) expect({ low, high }).toMatchObject(wilsonInterval(counts.resistant, counts.tested));
      }
    },
  );

  it('tell by crop what a release tells by crop, as a least number where some of it is withheld', async () => {
    const order = inventedRelease();
    const { head: own, cube } = order.draft;
    const cell = (crop: string, place: string, season: number, tested: number | null): ReleasedCell => ({
      ...{ placeKind: 'state', place, period: { first: season, last: season }, species: 'KCHSC', group: 9 },
      ...{ assay: 'whole plant', design: null, part: { of: 'crop', name: crop }, receipt: null, actives: [] },
      status: tested === null ? 'withheld' : 'published',
      counts: tested === null ? null : { tested, resistant: 2, someSurvivors: 0 },
      unfinished: false,
    });
    const further = [
      ...[cell('wheat', 'KS', 2022, 9), cell('wheat', 'NE', 2024, 8), cell('wheat', 'KS', 2019, 50)],
      ...[cell('corn', 'KS', 2023, 7), cell('corn', 'NE', 2023, null)],
    ];
    const furtherTables = ['crop'] as const;
    const staff = staffClient(database.staffUrl);
    const number = await saveRelease(staff, {
      ...order,
      draft: {
        ...order.draft,
        head: { ...own, furtherTables: [...furtherTables] },
        cube: { ...cube, further, furtherTables },
      },
    });
    await closeClient(staff);
    const later = (await releaseByNumber(db, number))!;
    const choice = parseBriefing({ ...WISH, groups: ['9'] }, later, regionOf(later));
    if ('problem' in choice) throw new Error(choice.problem);
    const told = await readBriefing(db, later, choice);
    expect(told.effort.byCrop).toEqual([
      {
        group: 9,
        crops: [
          { crop: 'wheat', tested: 17, resistant: 4, isLeast: false },
          { crop: 'corn', tested: 7, resistant: 2, isLeast: true },
        ],
      },
    ]);
    expect(effortWords(told).join(' ')).toContain(
      'screened by crop: wheat 17 (4 resistant) and corn at least 7 (2 resistant).',
    );
  });

  it('tell of crops what is released, and nothing of a crop of which all is withheld', () => {
    expect(numbers.effort.byCrop).toEqual([
      { group: 9, crops: [] },
      {
        group: 27,
        crops: [
          { crop: 'wheat', tested: 108, resistant: 24, isLeast: false },
          { crop: 'corn', tested: 48, resistant: 12, isLeast: false },
          { crop: 'fallow', tested: 0, resistant: 0, isLeast: true },
        ],
      },
    ]);
    const told = effortWords(numbers).join(' ');
    expect(told).toContain(
      'group 27, screened by crop: wheat 108 (24 resistant), corn 48 (12 resistant) and fallow withheld.',
    );
    expect(told).not.toContain('group 9, screened by crop');
  });

  it('tell nothing by funder or of days', () => {
    expect(numbers).toMatchObject({ crop: null, funder: null });
    expect(numbers.effort).toMatchObject({ bySource: null, days: null });
    expect(numbers.groups.every(({ lookNext }) => lookNext === null)).toBe(true);
  });
});

describe('the PDF of a briefing', () => {
  it('has two pages, each marked as simulated', () => {
    expect(pdf.pages).toHaveLength(2);
    for (const { text } of pdf.pages) expect(text).toContain('Simulated data');
  });

  it('is tagged, titled, in a language and bookmarked by the board’s questions', () => {
    expect(pdf).toMatchObject({
      isMarked: true,
      lang: 'en',
      title: 'Kochia and herbicide groups 9 and 27, 2022–2024',
    });
    expect(pdf.bookmarks.slice(1, 6)).toEqual([
      'Is it in my county?',
      'How many samples?',
      'Is this worse than last year, or just more samples?',
      'What still works?',
      'Who pays next year?',
    ]);
    const roles = pdf.pages.flatMap(({ elements }) => elements.map(({ role }) => role));
    for (const role of ['H1', 'H2', 'P', 'L', 'LI', 'LBody', 'Table', 'TR', 'TH', 'TD', 'Figure'])
      expect(roles).toContain(role);
  });

  it('says in words what each map and chart shows', () => {
    const figures = pdf.pages.flatMap(({ elements }) => elements.filter(({ role }) => role === 'Figure'));
    expect(figures).toHaveLength(4);
    for (const { alt } of figures) expect(alt!.length).toBeGreaterThan(80);
    const place = numbers.groups[0]!.places.find(({ status }) => status === 'confirmed')!;
    expect(figures[0]!.alt).toContain(place.name);
    const { season, resistant, tested } = numbers.groups[0]!.series.find((one) => one.tested > 0)!;
    expect(figures.some(({ alt }) => alt!.includes(`${season}: ${resistant} of ${tested} resistant`))).toBe(
      true,
    );
  });

  it('draws the front where a speed is told, with its seasons in the words of the map, and nowhere else', async () => {
    const [first, second] = numbers.groups as [GroupNumbers, GroupNumbers];
    // Invented: 40 km a season from the middle of Nebraska since 2016.
    const speed: SpeedOfSpread = {
      ...{ kind: 'speed', species: 'KCHSC', group: second.group, from: 2019, to: 2024, grain: 'district' },
      ...{ speed: 40, low: 30, high: 50, model: 'arrival', otherSpeed: null, direction: null, jumps: [] },
      origins: [{ lon: -99.5, lat: 41.2, place: 'NE-4', kilometres: 5, since: 2016 }],
      ...{ newFinds: 9, sentence: 'Invented.', reason: null },
    };
    const own = (group: GroupNumbers, more: SpeedOfSpread[]) => ({
      ...group,
      findings: [...group.findings.filter(({ kind }) => kind !== 'speed'), ...more],
    });
    const told = { ...numbers, groups: [own(first, []), own(second, [speed])] };
    const [still, moving] = told.groups as [GroupNumbers, GroupNumbers];
    // Runs of three seasons end in 2021 and 2024; the one before them ends where nothing was counted.
    expect(groupFront(told, moving)!.origins[0]!.rings).toEqual([
      { label: '2021', kilometres: 200 },
      { label: '2024', kilometres: 320 },
    ]);
    expect(groupFront(told, still)).toBeNull();
    const read = await readPdf(await makeBriefing(briefingOf(told), 'pdf'));
    const alts = read.pages.flatMap(({ elements }) =>
      elements.flatMap(({ alt }) => (alt?.startsWith('Map') ? [alt] : [])),
    );
    expect(alts[0]).not.toContain('front');
    expect(alts[1]).toContain('Rings where the front stood at the end of 2021 and 2024');
    expect(flat(textOf(read))).toContain('where the front stood at the end of the season written on it');
    expect(read.pages).toHaveLength(2);
  });

  it('embeds every font that it uses, as a part of it', () => {
    expect(pdf.fonts.length).toBeGreaterThanOrEqual(3);
    expect(pdf.fontFiles).toBe(pdf.fonts.length);
    for (const name of pdf.fonts) expect(name).toMatch(/^[A-Z]{6}\+Source(Sans3|Serif4)-/);
  });

  it('holds each headline, the cautions, the notice and the erratum', () => {
    const text = flat(textOf(pdf));
    for (const { printed } of briefingOf(numbers).headlines) expect(text).toContain(flat(printed));
    for (const words of [...CAUTIONS, SIMULATED_NOTICE]) expect(text).toContain(flat(words));
    expect(text).toContain('Erratum of 2026-03-01: The invented table of 2019 came late.');
  });

  it('is the same bytes for the same release and choice', async () => {
    const sum = (of: Uint8Array) => createHash('sha256').update(of).digest('hex');
    expect(sum(await makeBriefing(briefingOf(numbers), 'pdf'))).toBe(sum(bytes));
  });

  it('marks what a person worded, and says what was computed', async () => {
    const computed = briefingOf(numbers).headlines[0]!;
    const edited = await readPdf(
      await makeBriefing(
        briefingOf(numbers, { [computed.key]: 'Kochia is a growing worry (invented words).' }),
        'pdf',
      ),
    );
    const text = flat(textOf(edited));
    expect(text).toContain('Kochia is a growing worry (invented words). †');
    expect(text).toContain(`Computed from the numbers: “${flat(computed.computed)}”`);
    expect(textOf(pdf)).not.toContain('†');
    expect(() => briefingOf(numbers, { 'found-99': 'x' })).toThrow(UnknownSentence);
  });
});

describe('the slides of a briefing', () => {
  let parts: Record<string, Uint8Array>;
  let slides: Uint8Array;
  beforeAll(async () => {
    slides = await makeBriefing(briefingOf(numbers), 'pptx');
    parts = unzipSync(slides);
  });
  const xml = (name: string) => strFromU8(parts[name]!);
  const named = (pattern: RegExp) => Object.keys(parts).filter((name) => pattern.test(name));
  const words = (text: string) =>
    flat(
      [...text.matchAll(/<a:t>([^<]*)<\/a:t>/g)]
        .map(([, one]) =>
          one!
            .replace(/&lt;/g, '<')
            .replace(/&quot;/g, '"')
            .replace(/&apos;/g, "'")
            .replace(/&amp;/g, '&'),
        )
        .join(' '),
    );

  it('say on each slide that the data are simulated, and have notes with the source', () => {
    const pages = named(/^ppt\/slides\/slide\d+\.xml$/);
    expect(pages.length).toBe(11);
    for (const name of pages) expect(words(xml(name))).toContain('Simulated data');
    const notes = named(/^ppt\/notesSlides\/notesSlide\d+\.xml$/);
    expect(notes).toHaveLength(pages.length);
    for (const name of notes) expect(words(xml(name))).toContain('Source: Invented screening cooperative');
  });

  it('hold charts with a workbook of their own, in it the numbers of the release and the bounds of their intervals', async () => {
    expect(named(/^ppt\/charts\/chart\d+\.xml$/)).toHaveLength(4);
    const books = named(/^ppt\/embeddings\/.+\.xlsx$/);
    expect(books).toHaveLength(4);
    const { series } = numbers.groups[0]!;
    const point = series.find((one) => one.tested > 0 && !one.unfinished)!;
    const chart = xml('ppt/charts/chart1.xml');
    expect(chart).toContain('95 % interval, lower bound');
    for (const value of [point.resistant / point.tested, point.low, point.high])
      expect(chart).toContain(`<c:v>${value}</c:v>`);
    const sheet = strFromU8(unzipSync(parts[books[0]!]!)['xl/worksheets/sheet1.xml']!);
    expect(sheet).toContain(`<v>${point.resistant / point.tested}</v>`);
    for (const name of [...named(/chart\d+\.xml$/)]) expect(xml(name)).not.toContain('<c:v></c:v>');
  });

  it('have a text in the place of each map and chart', () => {
    const told = named(/^ppt\/slides\/slide\d+\.xml$/).flatMap((name) =>
      [...xml(name).matchAll(/<p:pic>.*?descr="([^"]*)"|<p:graphicFrame>.*?descr="([^"]*)"/gs)].map(
        ([, picture, chart]) => (picture ?? chart)!,
      ),
    );
    expect(told.length).toBeGreaterThanOrEqual(6);
    for (const words of told) expect(words).not.toBe('');
    expect(told.filter((one) => one.startsWith('Map of Invented basin'))).toHaveLength(2);
    expect(told.filter((one) => one.includes('share resistant by season'))).toHaveLength(2);
  });

  it('hold each headline and every caution, and are the same bytes for the same briefing', async () => {
    const all = named(/^ppt\/slides\/slide\d+\.xml$/)
      .map((name) => words(xml(name)))
      .join(' ');
    for (const { printed } of briefingOf(numbers).headlines) expect(all).toContain(flat(printed));
    for (const caution of CAUTIONS) expect(all).toContain(flat(caution));
    expect(Buffer.compare(await makeBriefing(briefingOf(numbers), 'pptx'), slides)).toBe(0);
  });
});

describe('what a briefing is asked for', () => {
  const asked = (query: string) => parseBriefing(wishOf(new URLSearchParams(query)), head, regionOf(head));

  it('has a default for whatever is missing', () => {
    expect(asked('')).toMatchObject({ species: 'AMAPA', groups: [10], window: { first: 2022, last: 2024 } });
  });

  it('is one address, however it was asked for', () => {
    const [a, b] = [
      asked('group=27,9&species=KCHSC'),
      asked('species=KCHSC&group=9&group=27&window=2022-2024'),
    ];
    if ('problem' in a || 'problem' in b) throw new Error('both are there');
    expect(briefingQuery(a)).toBe(briefingQuery(b));
  });

  it.each(['species=XXXXX', 'species=KCHSC&group=10', 'window=2020-2022', 'district=KS-9'])(
    'is refused in words where the release does not have it: %s',
    (query) => {
      expect(asked(query)).toMatchObject({ problem: expect.stringMatching(/^There is no .+ There are: .+/) });
    },
  );
});
