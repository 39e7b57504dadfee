/** Texts of the log of activity. */
export const activityTexts = {
  title: 'Activity',
  intro:
    'What was done on the staff side, when, and by whom. Lines are added and never changed or removed. What came of single records stands in their own history.',
  filter: 'Which lines',
  by: 'Who',
  what: 'What',
  about: 'About',
  from: 'From',
  to: 'To',
  any: 'any',
  show: 'Show',
  export: 'These lines as CSV',
  caption: (count: number) => `${count} lines, newest first; times in UTC`,
  columns: ['When', 'Who', 'What', 'About'],
  nobody: 'nobody signed in',
  older: 'Older lines',
  none: 'There is no such line.',
} as const;
