import { day, many } from '@/app/messages/en/format';

/** Texts of the page about first finds. */
export const findTexts = {
  title: 'First finds',
  intro:
    'The first resistant result of a weed and group in a state deserves a second run and a second opinion before anybody announces it. Until a person confirms it, it counts for staff and stays out of releases, with everything of its kind in that state.',
  waiting: 'Waiting for their second run',
  noneWaiting: 'None waits.',
  find: (pair: string, active: string, state: string) =>
    `${pair}${active ? ` (${active})` : ''}, first in ${state}`,
  where: (county: string, season: number, sample: string, laboratory: string) =>
    `${county}, ${season}, sample ${sample} (${laboratory})`,
  alive: (alive: number, treated: number) => `${alive} of ${treated} plants alive`,
  held: (results: number) => `${many(results, 'result stays', 'results stay')} out of releases`,
  which: 'Confirm those whose second run agreed',
  why: 'What the second run showed',
  whyHint: 'Kept with your name. Which run, how many plants, who looked at it.',
  confirm: 'Confirm the ticked ones',
  confirmed: (finds: number) => `${many(finds, 'first find is', 'first finds are')} confirmed.`,
  noneTicked: 'Tick at least one.',
  noWhy: 'Say what the second run showed.',
  settled: 'Confirmed',
  settledCount: (finds: number) => many(finds, 'confirmed first find', 'confirmed first finds'),
  columns: ['First find', 'Where', 'Confirmed', 'By'],
  reopenHeading: 'Take a confirmation back',
  reopenWhich: 'First find',
  reopenWhy: 'Why',
  reopenText: 'It waits again, and stays out of the next release. Releases that have it do not change.',
  reopen: 'Take it back',
  reopened: 'It waits again.',
  on: (when: string) => day(when),
} as const;
