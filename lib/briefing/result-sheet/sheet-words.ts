import { countyName } from '@/lib/geography/atlas';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf, species } from '@/lib/vocabulary/species';
import type { Assay } from '@/lib/vocabulary/terms';
import type { ResultSheet, SheetTest } from './types';

/** The words of a result sheet, for its page and its document. */
export const SHEET = {
  title: (sample: string) => `Result of sample ${sample}`,
  marks: 'Private: for the sender of this sample',
  columns: ['Herbicide group and active', 'Rate', 'Alive of treated', 'Share alive', 'Call'],
  caption: 'What was sprayed, and what survived',
  meaning: 'What the call means',
  checks: 'Checks of the runs',
  noChecks: 'No check plants were sent along with this result: nothing is known of how the run went.',
  cautions: 'Before you act on this',
  own: 'To keep in mind of this result',
  ask: 'Whom to ask',
  askNobody: 'Your county extension office knows whom to ask about this result.',
  regulated: 'Regulated weeds',
  footer: (programme: string) => `${programme} · result sheet`,
} as const;

/** What the sample is, in a line or two. */
export function sampleWords(sheet: ResultSheet): string[] {
  const { species: code, county, season, collected, received, crop, laboratory } = sheet;
  const scientific = species(code)?.scientificName;
  const weed = scientific ? `${commonNameOf(code)} (${scientific})` : commonNameOf(code);
  const dates = [collected && `collected ${collected}`, received && `received ${received}`].filter(Boolean);
  const from = [
    `from ${countyName(county) ?? county}`,
    `season ${season}`,
    crop && `field of ${crop}`,
    ...dates,
  ];
  return [`${weed}, ${from.filter(Boolean).join(', ')}.`, `Screened by ${laboratory}.`];
}

/** The result in one or two sentences: what survived at which rate, and what did not. */
export function resultWords({ tests, species: code }: ResultSheet): string {
  const named = (wanted: SheetTest['result']) => {
    const own = tests.filter(({ result }) => result === wanted).map(herbicideWords);
    return [...new Set(own)];
  };
  const resistant = named('resistant');
  const some = named('some survivors').filter((one) => !resistant.includes(one));
  const none = named('susceptible').filter((one) => !resistant.includes(one) && !some.includes(one));
  const weed = `this ${commonNameOf(code)} population`;
  const told = [
    ...(resistant.length > 0 ? [`was resistant to ${joined(resistant)}.`] : []),
    ...(some.length > 0
      ? [`had some survivors, fewer than the definition asks, against ${joined(some)}.`]
      : []),
    ...(none.length > 0 ? [`was susceptible to ${joined(none)}.`] : []),
  ];
  if (told.length === 0) return `No call could be made for ${weed}.`;
  return told.map((line, at) => `${at === 0 ? `In the greenhouse ${weed}` : 'It'} ${line}`).join(' ');
}

/** A row of the table. */
export function testCells(test: SheetTest): string[] {
  const { rateMultiple, treated, alive } = test;
  const counted = treated !== null && alive !== null && treated > 0;
  const { low, high } = counted ? wilsonInterval(alive, treated) : { low: 0, high: 0 };
  return [
    `${groupName(test.group).replace(/^g/, 'G')}: ${activeWords(test)}${ASSAYS[test.assay]}`,
    rateMultiple === null ? 'not told' : `${rateMultiple} × label rate`,
    counted ? `${alive} of ${treated}` : '–',
    counted
      ? `${Math.round((100 * alive) / treated)} % (${Math.round(100 * low)}–${Math.round(100 * high)} %)`
      : '–',
    callWords(test),
  ];
}

/** What is to be known of these results beside the standing cautions. */
export function ownCautions({ tests, species: code }: ResultSheet): string[] {
  const tolerated = (species(code)?.neverSusceptibleTo ?? []).filter((group) =>
    tests.some((test) => test.group === group),
  );
  const has = (is: (test: SheetTest) => boolean) => tests.some(is);
  return [
    'The interval behind each share is what as many plants of such seed would show in most repetitions (95 %). A population near the line may be called otherwise when it is screened again.',
    ...tolerated.map(
      (group) =>
        `Group ${group} never controlled this weed well: surviving it is tolerance, and no sign of resistance.`,
    ),
    ...(has(({ result }) => result === 'susceptible')
      ? [
          '“Susceptible” means that the plants screened died. A few resistant ones may still stand in the field.',
        ]
      : []),
    ...(has(({ assay }) => assay === 'molecular')
      ? [
          'A molecular assay sees known mutations only. None found does not rule out resistance by another mechanism.',
        ]
      : []),
    ...(has(({ isFirstFind }) => isFirstFind)
      ? [
          'This is the first such result in its state. It is being screened a second time; please do not spread it before that is known.',
        ]
      : []),
    ...(has(({ contradictory }) => contradictory)
      ? [
          'Runs of one of the screenings contradict each other: it counts as inconclusive until they are settled.',
        ]
      : []),
    ...(has(({ result }) => result === 'void run')
      ? ['A run whose check plants misbehaved is void: its counts say nothing.']
      : []),
  ];
}

/** The checks of its runs, a line each. */
export function checkWords({ runs }: ResultSheet): string[] {
  if (runs.length === 0) return [SHEET.noChecks];
  return runs.map(({ name, valid, why }) => `Run ${name}: ${valid ? 'valid' : 'void'}; ${why}.`);
}

const ASSAYS: Record<Assay, string> = {
  'whole plant': '',
  'soil-applied': ' (soil-applied)',
  molecular: ' (molecular assay)',
};

function activeWords({ actives }: SheetTest): string {
  return actives.length === 0 ? 'active not told' : actives.join(' + ');
}

function herbicideWords(test: SheetTest): string {
  const { group, actives } = test;
  return actives.length === 0 ? `group ${group}` : `${actives.join(' + ')} (group ${group})`;
}

function callWords({ result, isFirstFind }: SheetTest): string {
  return `${CALLS[result]}${isFirstFind ? ', awaits its second run' : ''}`;
}

const CALLS: Record<SheetTest['result'], string> = {
  resistant: 'resistant',
  'some survivors': 'some survivors',
  susceptible: 'susceptible',
  inconclusive: 'inconclusive',
  'not testable': 'could not be screened',
  'void run': 'void run',
};

function joined(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
