import { many } from '@/app/messages/en/format';

/** Texts of the start of the staff side. */
export const homeTexts = {
  title: (name: string) => `Good day, ${name}`,
  waits: 'What waits for you',
  nothing: 'Nothing waits. New work begins with a sheet.',
  questions: (count: number) => `${many(count, 'row waits as a question', 'rows wait as questions')}`,
  questionsWhy: 'What waits counts nowhere until somebody answers.',
  finds: (count: number) => `${many(count, 'first find awaits its', 'first finds await their')} second run`,
  findsWhy: (held: number) =>
    `${many(held, 'resistant result stays', 'resistant results stay')} out of releases until then.`,
  unreported: (count: number, season: number) =>
    `${many(count, 'sample', 'samples')} of ${season}: the sender has no result yet`,
  unreportedWhy: 'A result goes to its sender before it goes to the public.',
  open: (season: number) => `The season ${season} is open`,
  openWhy: 'Only closed seasons enter the public map.',
  late: (changes: number, made: string) =>
    `${many(changes, 'late change', 'late changes')} of closed seasons waited when ${made} was made`,
  lateWhy: 'They enter when what changes tells on nobody; nothing has to be done.',
  release: (number: number, date: string) => `The newest release is number ${number} of ${date}.`,
  noRelease: 'Nothing has been released yet.',
  counties: 'Your counties',
  countiesWhy: 'exact numbers, for you alone',
  noCounties: 'No county is assigned to you yet. Ask an administrator of your programme.',
  start:
    'Nothing is here yet. An analyst brings in the first sheet; an administrator says what the programme is called and whom to ask.',
} as const;
