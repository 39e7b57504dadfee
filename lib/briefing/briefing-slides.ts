import { list, populations } from '@/lib/findings/wording';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import {
  byShare,
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
import { groupMap, legend, mapWords, seriesWords } from './figures';
import { editedNote, intervalWords, sharePercent } from './headlines';
import { type Deck, type SlideTable, startDeck } from './slides/start-deck';
import { marksOf, methodsWords, privateWords, sourceWords, titleOf } from './title';
import type { Briefing, GroupNumbers } from './types';

/**
 * A briefing as slides (PPTX, wide): the board’s questions in their order; charts are the program’s own and can be edited,
 * with the bounds of the interval as further series; maps are pictures with a text in their place; the notes of each slide hold
 * its numbers and their source. The same briefing gives the same bytes.
 */
export async function briefingSlides(briefing: Briefing): Promise<Uint8Array> {
  const { numbers } = briefing;
  const deck = startDeck({
    title: titleOf(numbers),
    author: numbers.programme,
    source: `${numbers.programme} · ${sourceWords(numbers)}`,
    marks: marksOf(numbers),
    date: numbers.source.date,
  });
  titleSlide(deck, briefing);
  shortSlide(deck, briefing);
  for (const group of numbers.groups) mapSlide(deck, briefing, group);
  samplesSlide(deck, briefing);
  for (const group of numbers.groups) trendSlide(deck, briefing, group);
  worksSlide(deck, briefing);
  paysSlide(deck, briefing);
  for (const group of numbers.groups) nextSlide(deck, briefing, group);
  methodsSlide(deck, briefing);
  deck.words(QUESTIONS.cautions, CAUTIONS, { size: 16, notes: CAUTIONS });
  return deck.bytes();
}

function titleSlide(deck: Deck, { numbers }: Briefing): void {
  const { source, simulated } = numbers;
  const lines = [
    sourceWords(numbers),
    ...(source.kind === 'private' ? [privateWords(source)] : []),
    ...(simulated ? [SIMULATED_NOTICE] : []),
    ...(source.kind === 'release'
      ? source.errata.map(({ date, text }) => `Erratum of ${date}: ${text}`)
      : []),
  ];
  deck.title(titleOf(numbers), numbers.programme, lines);
}

function shortSlide(deck: Deck, briefing: Briefing): void {
  const { headlines } = briefing;
  const of = (...kinds: string[]) =>
    kinds.flatMap((kind) => headlines.filter(({ key }) => key.startsWith(kind)).map(printedWords));
  deck.words('In short', [...of('found-'), ...of('change-', 'trend-', 'speed-'), DENOMINATOR], {
    size: 19,
    strong: of('found-').length,
    notes: headlines.map(({ key, computed }) => `${key}: ${computed}`),
  });
}

function mapSlide(deck: Deck, briefing: Briefing, group: GroupNumbers): void {
  const { numbers } = briefing;
  const name = groupName(group.group);
  const where = briefing.headlines.find(({ key }) => key === `where-${group.group}`)!;
  deck.map(`${QUESTIONS.where} ${sentenceStart(name)}`, {
    markup: groupMap(numbers, group, 480),
    alt: `Map of ${numbers.wholeName}, ${commonNameOf(numbers.species)}, ${name}, ${periodLabel(numbers.window)}. ${mapWords(numbers, group)}`,
    legend: legend(numbers, [group]),
    words: [
      printedWords(where),
      ...[togetherWords(numbers, group)].filter((one) => one !== null),
      ...newFinds(numbers, group),
    ],
    notes: [
      where.computed,
      ...group.places
        .filter(({ counted }) => counted)
        .map(
          ({ name: place, counted }) =>
            `${place}: ${counted!.resistant} of ${counted!.tested} (${intervalWords(counted!)})`,
        ),
    ],
  });
}

function samplesSlide(deck: Deck, { numbers }: Briefing): void {
  const shown = (value: number | undefined) =>
    value === undefined ? 'not public' : value.toLocaleString('en-US');
  const table: SlideTable = {
    heading: ['Herbicide group', 'received', 'testable', 'screened', 'resistant', 'share', '95 % interval'],
    widths: [4.2, 1.3, 1.3, 1.3, 1.3, 1.1, 1.8],
    rows: numbers.groups.map(({ group, receipt, whole: { counted } }) => [
      sentenceStart(groupName(group)),
      ...[receipt?.received, receipt?.testable, counted?.tested, counted?.resistant].map(shown),
      counted ? sharePercent(counted.share) : 'not public',
      counted ? intervalWords(counted) : 'not public',
    ]),
  };
  deck.table(QUESTIONS.samples, table, [countiesWords(numbers), DENOMINATOR]);
}

function trendSlide(deck: Deck, briefing: Briefing, { group, series }: GroupNumbers): void {
  const { numbers, headlines } = briefing;
  const shown = series.filter(({ unfinished }) => !unfinished);
  const hidden = shown.filter(({ withheld }) => withheld).map(({ season }) => String(season));
  deck.trend(`${QUESTIONS.worse} Group ${group}`, {
    points: shown.map(({ season, withheld, tested, resistant, low, high }) => ({
      label: String(season),
      share: withheld || tested === 0 ? null : resistant / tested,
      low: withheld || tested === 0 ? null : low,
      high: withheld || tested === 0 ? null : high,
      tested: withheld ? null : tested,
    })),
    alt: `${sentenceStart(commonNameOf(numbers.species))}, group ${group}, ${numbers.wholeName}: share resistant by season with its 95 % interval. ${seriesWords(shown)}`,
    words: [
      ...headlines
        .filter(({ key }) => ['change', 'trend', 'speed'].some((kind) => key === `${kind}-${group}`))
        .map(printedWords),
      TREND_READING.replace('Dots are the share', 'The strong line is the share')
        .replace('bars the 95 % interval', 'the dashed lines the 95 % interval')
        .replace('stands below each season', 'stands in the bars below'),
      ...(hidden.length > 0 ? [`Withheld, and left open: ${list(hidden, 20).replaceAll('; ', ', ')}.`] : []),
    ],
    notes: [seriesWords(series)],
  });
}

function worksSlide(deck: Deck, { numbers }: Briefing): void {
  deck.table(
    QUESTIONS.works,
    {
      heading: ['Group', 'In the greenhouse', 'share', '95 % interval'],
      widths: [5.9, 3.2, 1.1, 1.9],
      rows: byShare(numbers.standings).map((standing) => [
        sentenceStart(groupName(standing.group)),
        sentenceStart(standingWords(standing)),
        standing.counted ? sharePercent(standing.counted.share) : '–',
        standing.counted ? intervalWords(standing.counted) : '–',
      ]),
    },
    [
      `${sentenceStart(commonNameOf(numbers.species))}, ${numbers.wholeName}, ${periodLabel(numbers.window)}. ${NO_ADVICE}`,
    ],
    numbers.standings
      .filter(({ actives }) => actives.length > 0)
      .map(({ group, actives }) => `Group ${group}, actives tested: ${actives.join(', ')}`),
  );
}

function paysSlide(deck: Deck, { numbers }: Briefing): void {
  const { bySource } = numbers.effort;
  const words = [NO_COUNT_SAYS, ...effortWords(numbers), countiesWords(numbers)];
  if (!bySource) {
    deck.words(QUESTIONS.pays, words, { size: 20, notes: words });
    return;
  }
  deck.table(
    QUESTIONS.pays,
    {
      heading: ['Crop', 'Funder', 'received', 'screened', 'counties'],
      widths: [3, 4.5, 1.6, 1.6, 1.6],
      rows: bySource
        .slice(0, 8)
        .map(({ crop, funder, received, tested, counties }) => [
          crop,
          funder,
          ...[received, tested, counties].map((value) => value.toLocaleString('en-US')),
        ]),
    },
    words,
  );
}

function nextSlide(deck: Deck, { numbers }: Briefing, { group, lookNext }: GroupNumbers): void {
  if (!lookNext) return;
  const names = countyNames(numbers.region);

  deck.table(
    `${QUESTIONS.next}: group ${group}, ${lookNext.season}`,
    {
      heading: ['County', `Chance of a find in ${populations(lookNext.populations)}`, 'Why'],
      widths: [3.2, 3, 6.1],
      rows: lookNext.places
        .filter(({ place }) => names.has(place))
        .slice(0, 8)
        .map((one) => [names.get(one.place)!, chanceWords(one), sentenceStart(one.reason)]),
    },
    [sentenceStart(lookNext.sentence)],
  );
}

function methodsSlide(deck: Deck, briefing: Briefing): void {
  const note = editedNote(briefing);
  const words = [methodsWords(briefing.numbers), ...(note ? [`† ${note}`] : [])];
  deck.words(QUESTIONS.methods, words, { size: 18, notes: words });
}
