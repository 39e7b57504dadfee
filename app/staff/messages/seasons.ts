import { count, day, many } from '@/app/messages/en/format';

/** Texts of the page about seasons. */
export const seasonTexts = {
  title: 'Seasons',
  intro:
    'A season is closed by a person, after its results have gone out to their senders. Only closed seasons are shown by county and district. A closed season cannot be opened again: what comes later enters in batches that tell on nobody.',
  columns: [
    'Season',
    'How it stands',
    'Populations',
    'Screened',
    'For public counts',
    'Operations',
    'Not yet reported',
    'Questions',
    'First finds waiting',
  ],
  caption: 'Seasons, the newest first',
  closedOn: (when: string) => `closed ${day(when)}`,
  open: 'open',
  none: 'No season has results yet.',
  closeHeading: (year: number) => `Close ${year}`,
  enters: (populations: number, operations: number) =>
    `${many(populations, 'screened population', 'screened populations')} of ${many(operations, 'operation', 'operations')} would count as those of a closed season.`,
  completes: (windows: readonly string[]) =>
    `The window ${windows.join(', ')} would be complete: the next release would show it by county, area and district.`,
  waits: (window: string, open: readonly number[]) =>
    `Its window ${window} would still wait for ${open.join(' and ')}: until then the next release shows the season by region and state only.`,
  standsAlready: 'It fills no further window.',
  untold: (populations: number) =>
    `${many(populations, 'sample is', 'samples are')} not yet reported to their senders. They should hear it from you before they read it.`,
  questions: (rows: number) =>
    `${many(rows, 'row waits', 'rows wait')} for an answer. What is answered after closing is late, and may wait long to enter.`,
  finds: (finds: number) =>
    `${many(finds, 'first find awaits', 'first finds await')} a second run; what hangs on them stays out of releases until then.`,
  notScreened: (populations: number) =>
    `${many(populations, 'population has', 'populations have')} no screening result. If some are still in the greenhouse, wait.`,
  earlier: (years: readonly number[]) => `Earlier seasons are still open: ${years.join(', ')}.`,
  settled: 'Nothing of it is unsettled.',
  closeButton: (year: number) => `Close ${year} for good`,
  closed: (year: number, populations: number) =>
    `Season ${year} is closed, with ${count(populations)} populations for public counts.`,
  unknown: (year: number) => `Season ${year} has no results.`,
  unknownRemedy: 'Choose one of the list.',
  closedAlready: (year: number) => `Season ${year} was closed already.`,
  closedRemedy: 'Nothing is left to do.',
  toQuestions: 'Questions',
  mayNot: 'Closing asks for the role of a publisher.',
} as const;
