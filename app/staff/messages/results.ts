import type { ResultOrder } from '@/db/repositories/results';

/** Texts about results. */
export const resultTexts = {
  title: 'Results',
  intro:
    'Each line is one test: a population, screened with one herbicide at one rate. What several rows say of it was added up.',
  filter: 'Which results',
  any: 'any',
  species: 'Weed',
  group: 'Group',
  active: 'Active ingredient',
  activeHint: 'ISO common name',
  first: 'From season',
  last: 'To season',
  place: 'State or county',
  status: 'Result',
  laboratory: 'Laboratory',
  sheet: 'Import',
  sheetHint: 'its number; rows in their order',
  design: 'Design',
  assay: 'Assay',
  crop: 'Crop',
  funder: 'Funder',
  sample: 'Sample begins with',
  order: 'Order',
  orders: {
    newest: 'newest first',
    oldest: 'oldest first',
    sample: 'sample number',
    county: 'county',
    season: 'season, latest first',
  } satisfies Record<ResultOrder, string>,
  show: 'Show',
  columnsHeading: 'Choose columns',
  caption: 'Results',
  count: (count: number, more: boolean) =>
    count === 0 && !more
      ? 'No result fits.'
      : more
        ? `More than ${count.toLocaleString('en')} results fit; they are counted no further.`
        : count === 1
          ? 'One result fits.'
          : `${count.toLocaleString('en')} results fit.`,
  next: 'Next page',
  start: 'Back to the first page',
  all: 'All results',
  export: 'Take these results away as CSV',
  exportHint:
    'Every line that fits, whatever page this is. It holds what names fields and senders: keep it private.',
  viewsHeading: 'Your views',
  noViews: 'You keep no view yet. Choose results and columns, then give the view a name.',
  viewName: 'Name of this view',
  saveView: 'Keep this view',
  saved: (name: string) => `Kept as “${name}”.`,
  removeView: 'Forget',
  removed: 'Forgotten.',
  noName: 'Give the view a name.',
  kinds: { 'not testable': 'not testable', 'void run': 'void run', tested: 'screened' },
  contradictory: 'runs differ',
  yes: 'yes',
  no: 'no',
  unknown: 'There is no such result now.',
  unknownText:
    'A correction may have made another one of its rows: a result belongs to its sample, weed, herbicide and rate.',
  oneTitle: (sample: string) => `Result of sample ${sample}`,
  says: 'What it says',
  rows: 'Rows that it is made of',
  rowsColumns: ['Row', 'Run', 'Replicate', 'Plants treated', 'Plants alive', 'By itself', 'Its run'],
  runCounts: 'counts',
  runVoid: 'void',
  back: 'Back to the results',
} as const;

/** Texts about one row of a sheet. */
export const recordTexts = {
  title: (record: number, file: string) => `Row ${record} of ${file}`,
  sent: 'As it was sent',
  sentNote: 'What stands in the sheet is kept as it is, for ever.',
  read: 'As it is read now',
  outcome: { accepted: 'accepted', 'in question': 'in question', refused: 'refused' },
  undone: 'Its import was undone: it counts nowhere.',
  reasons: 'Why it does not count as it stands',
  field: 'Column',
  text: 'Text',
  said: 'Now read as',
  correct: 'Correct a cell',
  correctText:
    'Says how a cell is to be read. The row is judged again by the same rules as on the day it came in; what was sent and every earlier reading are kept.',
  column: 'Column',
  to: 'Is to be read as',
  why: 'Why',
  whyHint: 'One sentence: it stands in the history for ever.',
  noWhy: 'Say why.',
  noText: 'Say what the cell is to be read as.',
  correctButton: 'Correct',
  retract: 'Take the row back',
  retractText: 'It then counts nowhere. It stays in the sheet, and a correction brings it back.',
  retractButton: 'Take back',
  done: (outcome: string, result: string | null) =>
    `Done. The row is ${outcome}${result ? `: ${result}` : ''}.`,
  inRelease: (release: number) =>
    `This import is in release ${release}, which stays as it is; what changes here enters a later one when it can without telling on anybody.`,
  historyHeading: 'History',
  historyColumns: ['When (UTC)', 'Who', 'What', 'Why', 'Before', 'After'],
  noHistory: 'Nothing was changed since it came in.',
  questions: 'Open questions about it',
  toResult: 'The result that it belongs to',
  toSheet: 'Its sheet',
  unknown: 'There is no such row.',
  changedMeanwhile: (by: string, at: string) =>
    `${by} changed this row meanwhile (${at} UTC); it was not changed again.`,
  lookAgain: 'Look at it as it is now, then decide.',
} as const;
