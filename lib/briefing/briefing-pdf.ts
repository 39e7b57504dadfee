import { populations } from '@/lib/findings/wording';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import {
  byShare,
  COUNTY_PAGES,
  chanceWords,
  countiesWords,
  countyNames,
  DENOMINATOR,
  effortWords,
  NO_ADVICE,
  NO_COUNT_SAYS,
  newFinds,
  QUESTIONS,
  sentenceStart,
  standingWords,
  TREND_READING,
  togetherWords,
} from './answers';
import { printedWords } from './edit-sentences';
import { groupMap, groupTrend, legend } from './figures';
import { editedNote, intervalWords, sharePercent } from './headlines';
import { INK } from './ink';
import { documentBytes, startDocument } from './pdf/start-document';
import { blockWriter, type Writer } from './pdf/write-blocks';
import { marksOf, methodsWords, privateWords, sourceWords, titleOf } from './title';
import type { Briefing, BriefingNumbers, GroupNumbers } from './types';

/**
 * A briefing as a tagged PDF of two pages in US letter (a private one, which holds more, of three): headlines, then the board’s questions in their order with map, table and
 * trend, methods and the standing cautions. Figures are vectors, faces are embedded. The same briefing gives the same bytes.
 */
export async function briefingPdf(briefing: Briefing): Promise<Uint8Array> {
  const [first, ...smaller] = SCALES.map((scale) => () => draw(briefing, scale));
  const whole = first!();
  if (pagesOf(whole) <= PAGES) return documentBytes(whole);
  for (const again of smaller) {
    const doc = again();
    if (pagesOf(doc) <= PAGES) return documentBytes(doc);
  }
  return documentBytes(whole);
}

const PAGES = 2;

/** What has a little too much for two pages is set a little smaller; what has much more takes a third page. */
const SCALES = [1, 0.96, 0.92];

function pagesOf(doc: PDFKit.PDFDocument): number {
  return doc.bufferedPageRange().count;
}

function draw(briefing: Briefing, scale: number): PDFKit.PDFDocument {
  const { numbers } = briefing;
  const title = titleOf(numbers);
  const doc = startDocument({
    title,
    author: numbers.programme,
    subject: sourceWords(numbers),
    lang: 'en',
    date: numbers.source.date,
    marks: marksOf(numbers),
    footer: `${numbers.programme} · ${sourceWords(numbers)}`,
    page: (number) => `page ${number}`,
  });
  const writer = blockWriter(doc, scale);
  head(writer, briefing, title);
  whereSection(writer, briefing);
  samplesSection(writer, briefing);
  worseSection(writer, briefing);
  writer.beside(
    [
      { share: 1, write: () => worksSection(writer, briefing) },
      { share: 1, write: () => paysSection(writer, briefing) },
    ],
    20,
  );
  writer.paragraph(NO_ADVICE, { size: 9.2, after: 7 });
  nextSection(writer, briefing);
  methodsSection(writer, briefing);
  cautionsSection(writer);
  return doc;
}

function head(writer: Writer, briefing: Briefing, title: string): void {
  const { numbers, headlines } = briefing;
  writer.paragraph(numbers.programme, { face: 'sans-bold', size: 9, color: INK.accent, after: 1 });
  writer.heading(1, title, { bookmark: title });
  writer.paragraph(sourceWords(numbers), { size: 9.5, color: INK.quiet, after: 6 });
  for (const notice of notices(briefing)) writer.paragraph(notice, { face: 'sans-bold', size: 9, after: 4 });
  const of = (kind: string) => headlines.filter(({ key }) => key.startsWith(kind)).map(printedWords);
  for (const words of of('found-')) writer.paragraph(words, { face: 'sans-bold', size: 11.5 });
  writer.list([...of('change-'), ...of('trend-'), ...of('speed-')], { size: 9.4 });
  writer.paragraph(DENOMINATOR, { face: 'sans-italic', size: 9.6, after: 7 });
}

function notices({ numbers }: Briefing): string[] {
  const { source, simulated } = numbers;
  return [
    ...(source.kind === 'private' ? [privateWords(source)] : []),
    ...(simulated ? [SIMULATED_NOTICE] : []),
    ...(source.kind === 'release'
      ? source.errata.map(({ date, text }) => `Erratum of ${date}: ${text}`)
      : []),
  ];
}

function question(writer: Writer, number: number, words: string, keep?: number): void {
  writer.heading(2, `${number}. ${words}`, { bookmark: words, ...(keep && { keep }) });
}

function whereSection(writer: Writer, { numbers, headlines }: Briefing): void {
  question(writer, 1, QUESTIONS.where);
  const { groups, species } = numbers;
  const key = () => {
    writer.key(legend(numbers), { size: 8.8, after: 2 });
    if (numbers.source.kind === 'release') writer.paragraph(COUNTY_PAGES, { size: 9.2 });
  };
  const told = () => {
    const words = groups.flatMap((group) => [
      ...[togetherWords(numbers, group)].filter((one) => one !== null),
      ...newFinds(numbers, group),
    ]);
    for (const one of words) writer.paragraph(one, { size: 9.2 });
  };
  const map = (group: GroupNumbers, width: number) => () => {
    const name = `${sentenceStart(commonNameOf(species))}, ${groupName(group.group)}`;
    writer.paragraph(name, { face: 'sans-bold', size: 9, after: 2 });
    writer.figure(groupMap(numbers, group, width));
    const where = headlines.find((one) => one.key === `where-${group.group}`)!;
    writer.paragraph(printedWords(where), { size: 9.2 });
  };
  if (groups.length === 1) {
    const aside = () => {
      key();
      writer.space(5);
      told();
    };
    writer.beside([
      { share: 60, write: map(groups[0]!, 540) },
      { share: 40, write: aside },
    ]);
  } else {
    writer.beside(
      groups.map((group) => ({ share: 1, write: map(group, 430) })),
      44,
    );
    writer.beside(
      [
        { share: 1, write: key },
        { share: 1, write: told },
      ],
      44,
    );
  }
  writer.space(4);
}

function samplesSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 2, QUESTIONS.samples, 100);
  writer.paragraph(countiesWords(numbers), { size: 9.2 });
  const shown = (value: number | undefined) =>
    value === undefined ? 'not public' : value.toLocaleString('en-US');
  writer.table({
    caption: `Samples by group, ${numbers.wholeName}, ${periodLabel(numbers.window)}`,
    columns: [
      { heading: 'Herbicide group', share: 34 },
      ...['received', 'testable', 'screened', 'resistant', 'share'].map((heading) => ({
        ...{ heading, share: 11, align: 'right' as const },
      })),
      { heading: '95 % interval', share: 14, align: 'right' },
    ],
    rows: numbers.groups.map(({ group, receipt, whole: { counted } }) => [
      sentenceStart(groupName(group)),
      shown(receipt?.received),
      shown(receipt?.testable),
      shown(counted?.tested),
      shown(counted?.resistant),
      counted ? sharePercent(counted.share) : 'not public',
      counted ? intervalWords(counted) : 'not public',
    ]),
  });
}

function worseSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 3, QUESTIONS.worse, 210);
  const { groups } = numbers;
  const reading = () => writer.paragraph(TREND_READING, { size: 9.2 });
  const columns = groups.map((group) => ({
    share: 1,
    write: () => {
      writer.paragraph(trendName(numbers, group), { face: 'sans-bold', size: 9, after: 2 });
      writer.figure(groupTrend(numbers, group, { width: 370, height: 204 }));
    },
  }));
  if (groups.length > 1) {
    reading();
    writer.beside(columns);
  } else {
    writer.beside([
      { ...columns[0]!, share: 60 },
      { share: 40, write: reading },
    ]);
  }
  writer.space(4);
}

function trendName({ isPart, wholeName }: BriefingNumbers, { group }: GroupNumbers): string {
  return `${sentenceStart(groupName(group))}${isPart ? `, ${wholeName}` : ''}`;
}

function worksSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 4, QUESTIONS.works, 90);
  writer.table({
    caption: `What each group did in the greenhouse, ${numbers.wholeName}, ${periodLabel(numbers.window)}`,
    columns: [
      { heading: 'Group', share: 13 },
      { heading: 'In the greenhouse', share: 46 },
      { heading: 'share', share: 13, align: 'right' },
      { heading: '95 % interval', share: 25, align: 'right' },
    ],
    rows: byShare(numbers.standings).map((standing) => [
      String(standing.group),
      sentenceStart(standingWords(standing)),
      standing.counted ? sharePercent(standing.counted.share) : '–',
      standing.counted ? intervalWords(standing.counted) : '–',
    ]),
    size: 8.8,
  });
}

function paysSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 5, QUESTIONS.pays, 90);
  writer.paragraph(NO_COUNT_SAYS, { size: 9.2 });
  writer.list(effortWords(numbers), { size: 9.2 });
  const { bySource } = numbers.effort;
  if (!bySource) return;
  writer.table({
    caption: 'Samples by crop and funder',
    columns: [
      { heading: 'Crop and funder', share: 50 },
      ...['received', 'screened', 'counties'].map((heading) => ({
        ...{ heading, share: 17, align: 'right' as const },
      })),
    ],
    rows: bySource
      .slice(0, 8)
      .map(({ crop, funder, received, tested, counties }) => [
        `${crop}, ${funder}`,
        ...[received, tested, counties].map((value) => value.toLocaleString('en-US')),
      ]),
    size: 8.6,
  });
}

function nextSection(writer: Writer, { numbers }: Briefing): void {
  const told = numbers.groups.flatMap(({ lookNext }) => (lookNext ? [lookNext] : []));
  if (told.length === 0) return;
  const names = countyNames(numbers.region);

  writer.heading(2, QUESTIONS.next, { bookmark: QUESTIONS.next });
  for (const found of told) {
    writer.paragraph(sentenceStart(found.sentence), { size: 9.2 });
    writer.table({
      caption: `Where to look next, group ${found.group}, ${found.season}`,
      columns: [
        { heading: 'County', share: 20 },
        { heading: `Chance of a find in ${populations(found.populations)}`, share: 34 },
        { heading: 'Why', share: 46 },
      ],
      rows: found.places
        .filter(({ place }) => names.has(place))
        .slice(0, numbers.groups.length === 1 ? 8 : 5)
        .map((one) => [names.get(one.place)!, chanceWords(one), sentenceStart(one.reason)]),
      size: 8.6,
    });
  }
}

function methodsSection(writer: Writer, briefing: Briefing): void {
  const note = editedNote(briefing);
  writer.heading(2, QUESTIONS.methods, { bookmark: QUESTIONS.methods });
  writer.paragraph(methodsWords(briefing.numbers), { size: 8.9, after: 4 });
  if (note) writer.paragraph(`† ${note}`, { size: 8.9, after: 4 });
}

function cautionsSection(writer: Writer): void {
  writer.heading(2, QUESTIONS.cautions, { bookmark: QUESTIONS.cautions });
  const half = Math.ceil(CAUTIONS.length / 2);
  writer.beside(
    [CAUTIONS.slice(0, half), CAUTIONS.slice(half)].map((cautions) => ({
      share: 1,
      write: () => writer.list(cautions, { size: 8.9 }),
    })),
  );
}
