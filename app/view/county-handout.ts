import type { Handout } from '@/lib/briefing/handout-pdf';
import { lookOf } from '@/lib/figures/looks';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { swatch } from '@/lib/figures/swatch';
import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';
import { regionOf } from '../region';
import type { CountyLine, CountyReport } from './read-county';

/** What a county's page says, as its handout on one page of paper says it. */
export function countyHandout({ language, texts }: Speech, report: CountyReport): Handout {
  const { head, county, window, lines } = report;
  const [weed, here, numbers, , beside] = texts.county.columns;
  return {
    ...{ lang: language, date: head.date, programme: head.programme, title: county.fullName },
    source: `${texts.county.release(head.number, texts.day(head.date))} ${periodLabel(window)}`,
    marks: head.simulated ? [texts.simulated] : [],
    notices: head.simulated ? [texts.cautions.simulated] : [],
    headline: texts.say.countyHeadline(report),
    map: locator(texts, report),
    found: {
      heading: texts.county.found(periodLabel(window)),
      columns: [weed!, here!, numbers!, beside!],
      rows: lines.map((line, i) => ({ mark: lookMark(line, i), words: wordsOf(texts, line) })),
      notes: notesOf(texts, report),
    },
    sections: sectionsOf(texts, report),
    advice: [
      { heading: texts.county.before, steps: texts.county.beforeSteps },
      { heading: texts.county.after, steps: texts.county.afterSteps },
    ],
    cautions: { heading: texts.cautions.heading, all: texts.cautions.all },
  };
}

type Texts = Speech['texts'];

/** Most sentences of a kind that a page has room for; the county's own page has them all. */
const MOST = { clean: 4, changes: 1, pairs: 12 };

function lookMark({ numbers: { status, estimate } }: CountyLine, at: number): string {
  return swatch(lookOf(status), estimate?.share ?? null, `row-${at}-`);
}

function wordsOf(texts: Texts, line: CountyLine): [string, string, string, string] {
  const { pair, numbers, nextDoor } = line;
  const { estimate, status, place } = numbers;
  return [
    sentenceStart(texts.county.pair(texts.weedName(pair.species), pair.group)),
    `${texts.status[status]}${place.kind === 'area' ? ' *' : ''}`,
    estimate
      ? texts.county.numbers(
          texts.count(estimate.resistant),
          texts.count(estimate.tested),
          texts.percent(estimate.share),
          texts.interval(estimate),
        )
      : texts.county.noNumbers,
    texts.county.nextDoor(nextDoor.confirmed, nextDoor.places),
  ];
}

function notesOf(texts: Texts, { lines, notScreened }: CountyReport): string[] {
  const areas = new Map(
    lines
      .filter(({ numbers }) => numbers.place.kind === 'area')
      .map(({ pair, numbers }) => [pair.species, numbers.place.name] as const),
  );
  const joined = [...areas].map(([species, name]) => `${texts.weedName(species)}: ${name}`);
  const absent = notScreened.map(({ pair: { species, group } }) =>
    texts.county.pair(texts.weedName(species), group),
  );
  return [
    ...(lines.length === 0 ? [texts.county.nothingScreened] : []),
    ...(joined.length > 0 ? [`* ${sentenceStart(texts.county.together(texts.list(joined)))}.`] : []),
    ...(absent.length > 0
      ? [`${texts.county.notScreened} ${texts.list(absent, { limit: MOST.pairs })}.`]
      : []),
  ];
}

function sectionsOf(texts: Texts, { lines, changes }: CountyReport): Handout['sections'] {
  const clean = lines.filter((line) => line.clean).map((line) => texts.say.reassuranceWords(line));
  const clear = changes.filter(({ low, high }) => low! > 1 || high! < 1);
  const told = [
    { heading: texts.county.clean, items: clean.slice(0, MOST.clean) },
    {
      heading: texts.county.change,
      items: clear.slice(0, MOST.changes).map((change) => texts.say.changeWords(change)),
    },
  ];
  return told.filter(({ items }) => items.length > 0);
}

/** The county in its region: outlines alone, which say nothing of what was found. */
function locator(texts: Texts, { head, county }: CountyReport): string {
  const region = regionOf(head);
  const width = 300;
  return mapFigure({
    ...{ region, grain: 'county', size: { width, height: fittedHeight(region, width) }, places: [] },
    ...{ title: county.fullName, description: texts.map.source(head.number, texts.day(head.date)) },
    ...{ hiddenWords: '', stamp: head.simulated ? texts.simulated : null },
    ...{ chosen: county.key, prefix: 'where-' },
  });
}
