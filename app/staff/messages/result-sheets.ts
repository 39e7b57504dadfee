import { day, many } from '@/app/messages/en/format';

/** Texts of the pages about result sheets. */
export const sheetTexts = {
  title: 'Result sheets',
  intro:
    'Whoever sent a sample hears its result first, and in private. A result sheet says what survived at which rate, how it is called and why, what is known of the run, and whom to ask. When it is handed over, note it here.',
  none: 'No season has results yet.',
  choose: 'Choose samples',
  season: 'Season',
  laboratory: 'Laboratory',
  anyLaboratory: 'all',
  which: 'Which',
  untold: 'not handed over yet',
  all: 'all',
  sample: 'Sample number has',
  show: 'Show them',
  found: (some: number, untold: number, season: number) =>
    `${many(some, 'sample', 'samples')} on this page; ${many(untold, 'sample of', 'samples of')} ${season} in all ${untold === 1 ? 'waits' : 'wait'} for a sheet.`,
  nothing: 'No sample fits.',
  ticks: 'Samples',
  line: (weed: string, county: string) => `${weed}, ${county}`,
  results: (results: number, reported: string | null) =>
    `${many(results, 'result', 'results')}; ${reported ? `handed over ${day(reported)}` : 'not handed over'}`,
  on: 'Handed over on',
  mark: 'Note the ticked ones as handed over',
  marked: (noted: number) => `${many(noted, 'sample was', 'samples were')} noted as handed over.`,
  noneTicked: 'Tick at least one sample.',
  future: 'This day is still to come.',
  sheets: 'The sheets of this page as links',
  open: (sample: string) => `Sheet of ${sample}`,
  document: (some: number) => `All ${many(some, 'sheet', 'sheets')} of this page as one PDF`,
  allDocument: (some: number) => `The ${many(some, 'sheet', 'sheets')} that wait, as one PDF`,
  allHeading: (season: number) => `Everything of ${season} that waits`,
  allText: (untold: number) =>
    `${many(untold, 'sample waits', 'samples wait')}. Take their sheets as one PDF, hand them over, then note them all at once.`,
  allMark: (untold: number) => `Note ${many(untold, 'sample', 'samples')} as handed over`,
  next: 'Next page',
  unknown: 'There is no such sample.',
  pdf: 'As a PDF, to print or send',
  pdfButton: 'Take it away',
  handed: (when: string) => `Handed over on ${day(when)}.`,
  notHanded: 'Not handed over yet.',
  markOne: 'Note it as handed over',
  noDocument: 'Name at least one sample that is there.',
  most: (most: number) =>
    `A document holds at most ${many(most, 'sheet', 'sheets')}: the first ones are in it.`,
} as const;
