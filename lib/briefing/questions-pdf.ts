import { populations } from '@/lib/findings/wording';
import { groupName } from '@/lib/vocabulary/groups';
import { periodLabel } from '@/lib/vocabulary/terms';
import {
  byShare,
  COUNTY_PAGES,
  chanceWords,
  countiesWords,
  countyNames,
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
import { intervalWords, sharePercent } from './headlines';
import type { Writer } from './pdf/write-blocks';
import type { Briefing, BriefingNumbers, GroupNumbers } from './types';

/** How much room the parts of a briefing take. */
export interface Layout {
  /** Of all sizes. */
  scale: number;
  /** Of the width, in per cent, for the one map or chart of a briefing of one group. */
  mapShare: number;
  /** Of its column, in per cent, for each map of a briefing of two groups. */
  mapWidth: number;
  /** Of a trend that is 370 wide. */
  chartHeight: number;
  /** Most counties named to look next in. */
  places: number;
}

function question(writer: Writer, number: number, words: string, keep?: number): void {
  writer.heading(2, `${number}. ${words}`, { bookmark: words, ...(keep && { keep }) });
}

/** Units of a map's width for each per cent of its room: its words are then 7 points high and more, however wide it is printed. */
const UNITS = { one: 9, two: 4.3 };

/** The map of each group, what lies together on it and what is new. */
export function whereSection(
  writer: Writer,
  { numbers, headlines }: Briefing,
  { mapShare, mapWidth }: Layout,
): void {
  question(writer, 1, QUESTIONS.where);
  const { groups } = numbers;
  const entries = legend(numbers, groups);
  const key = (from: number, to: number) => () =>
    writer.key(entries.slice(from, to), { size: 8.8, after: 2 });
  const told = (group: GroupNumbers) => {
    const together = togetherWords(numbers, group);
    for (const words of [...(together === null ? [] : [together]), ...newFinds(numbers, group)])
      writer.paragraph(words, { size: 9.2 });
  };
  const map = (group: GroupNumbers, width: number, wide: number) => {
    writer.paragraph(sentenceStart(groupName(group.group)), { face: 'sans-bold', size: 9, after: 2 });
    writer.beside([
      { share: wide, write: () => writer.figure(groupMap(numbers, group, width)) },
      { share: 100 - wide, write: () => {} },
    ]);
    const where = headlines.find((one) => one.key === `where-${group.group}`)!;
    writer.paragraph(printedWords(where), { size: 9.2 });
  };
  if (groups.length === 1) {
    const aside = () => {
      key(0, entries.length)();
      writer.space(5);
      told(groups[0]!);
    };
    writer.beside([
      { share: mapShare, write: () => map(groups[0]!, UNITS.one * mapShare, 100) },
      { share: 100 - mapShare, write: aside },
    ]);
  } else {
    const column = (group: GroupNumbers) => () => {
      map(group, UNITS.two * mapWidth, mapWidth);
      told(group);
    };
    writer.beside(
      groups.map((group) => ({ share: 1, write: column(group) })),
      44,
    );
    writer.space(3);
    const half = Math.ceil(entries.length / 2);
    writer.beside([
      { share: 1, write: key(0, half) },
      { share: 1, write: key(half, entries.length) },
    ]);
  }
  if (numbers.source.kind === 'release') writer.paragraph(COUNTY_PAGES, { size: 9.2 });
  writer.space(4);
}

export function samplesSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 2, QUESTIONS.samples, 68);
  writer.paragraph(countiesWords(numbers), { size: 9.2 });
  const shown = (value: number | undefined) =>
    value === undefined ? 'not public' : value.toLocaleString('en-US');
  writer.table({
    caption: `Samples by group, ${numbers.wholeName}, ${periodLabel(numbers.window)}`,
    columns: [
      // The longest of their names stands on one line, and so does “not public”.
      { heading: 'Herbicide group', share: 236 },
      ...['received', 'testable', 'screened', 'resistant', 'share'].map((heading) => ({
        ...{ heading, share: 47, align: 'right' as const },
      })),
      { heading: '95 % interval', share: 57, align: 'right' },
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

export function worseSection(
  writer: Writer,
  { numbers }: Briefing,
  { scale, mapShare, chartHeight }: Layout,
): void {
  question(writer, 3, QUESTIONS.worse, scale * chartHeight);
  const { groups } = numbers;
  const reading = () => writer.paragraph(TREND_READING, { size: 9.2 });
  const columns = groups.map((group) => ({
    share: 1,
    write: () => {
      writer.paragraph(trendName(numbers, group), { face: 'sans-bold', size: 9, after: 2 });
      writer.figure(groupTrend(numbers, group, { width: 370, height: chartHeight }));
    },
  }));
  if (groups.length > 1) {
    reading();
    writer.beside(columns);
  } else {
    writer.beside([
      { ...columns[0]!, share: mapShare },
      { share: 100 - mapShare, write: reading },
    ]);
  }
  writer.space(4);
}

function trendName({ isPart, wholeName }: BriefingNumbers, { group }: GroupNumbers): string {
  return `${sentenceStart(groupName(group))}${isPart ? `, ${wholeName}` : ''}`;
}

export function worksSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 4, QUESTIONS.works, 90);
  writer.table({
    caption: `What each group did in the greenhouse, ${numbers.wholeName}, ${periodLabel(numbers.window)}`,
    columns: [
      { heading: 'Group', share: 16 },
      { heading: 'In the greenhouse', share: 43 },
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
  writer.paragraph(NO_ADVICE, { size: 9.2, after: 7 });
}

export function paysSection(writer: Writer, { numbers }: Briefing): void {
  question(writer, 5, QUESTIONS.pays, 90);
  writer.paragraph(NO_COUNT_SAYS, { size: 9.2 });
  writer.list(effortWords(numbers), { size: 9.2 });
  const { bySource } = numbers.effort;
  if (!bySource) return;
  writer.table({
    caption: 'Samples by crop and funder',
    columns: [
      { heading: 'Crop and funder', share: 55 },
      ...['received', 'screened', 'counties'].map((heading) => ({
        ...{ heading, share: 15, align: 'right' as const },
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

/** Staff only: a release tells of no place to look at. */
export function nextSection(writer: Writer, { numbers }: Briefing, { places }: Layout): void {
  const told = numbers.groups.flatMap(({ lookNext }) => (lookNext ? [lookNext] : []));
  const [first] = told;
  if (!first) return;
  const names = countyNames(numbers.region);
  const most = Math.ceil(places / told.length);
  writer.heading(2, QUESTIONS.next, { bookmark: QUESTIONS.next, keep: 90 });
  for (const { sentence } of told) writer.paragraph(sentenceStart(sentence), { size: 9.2 });
  // An analysis asks the same of all groups: so many populations from a county, in the season after its last.
  writer.table({
    caption: `Where to look next, ${first.season}`,
    columns: [
      { heading: 'County', share: 22 },
      { heading: 'Group', share: 9 },
      { heading: `Chance of a find in ${populations(first.populations)}`, share: 25 },
      { heading: 'Why', share: 44 },
    ],
    rows: told.flatMap((found) =>
      found.places
        .filter(({ place }) => names.has(place))
        .slice(0, most)
        .map((one) => [
          names.get(one.place)!,
          String(found.group),
          chanceWords(one),
          sentenceStart(one.reason),
        ]),
    ),
    size: 8.6,
  });
}
