import { count, day, many, percent } from '@/app/messages/en/format';
import type { Level } from '@/lib/jobs/published-shares';

/** Texts of the pages about releases. */
export const releaseTexts = {
  title: 'Releases',
  intro:
    'What the public sees is a release: numbered, audited, never changed. You draft one, look at what it withholds and what it changes, and then publish it or drop it.',
  openHeading: 'A draft waits for a decision',
  open: (number: number, by: string, when: string) =>
    `Release ${number} as it would be, drafted by ${by}, ${when}.`,
  look: 'Look at it and decide',
  draftHeading: 'Draft a release',
  draftText:
    'A draft takes a few minutes: small counts are withheld, and the audit looks for withheld counts that could still be worked out. Nothing is shown to the public. A draft that is open now is dropped when the new one is there.',
  date: 'Day that it will bear',
  note: 'What readers should know of it',
  noteHint:
    'Shown with the release, in one or two sentences. No names, no telephone numbers. May stay empty.',
  draftButton: 'Draft it',
  drafting: 'The draft is being made. You can follow it here.',
  before: 'Before you draft',
  closed: (seasons: readonly number[]) =>
    seasons.length === 0
      ? 'No season is closed, so there is nothing to release yet.'
      : `Closed seasons: ${seasons[0]}–${seasons.at(-1)}.`,
  openSeasons: (seasons: readonly number[]) => `Not closed: ${seasons.join(', ')}.`,
  toSeasons: 'Seasons',
  held: (finds: number) =>
    finds === 0
      ? 'No first find of a state awaits its second run.'
      : `${many(finds, 'first find awaits its', 'first finds await their')} second run; what hangs on it stays out.`,
  toFinds: 'First finds',
  untold: (seasons: readonly { season: number; populations: number }[]) =>
    seasons.length === 0
      ? 'Every sender has been told their results.'
      : `Not yet reported to their senders: ${seasons.map(({ season, populations }) => `${many(populations, 'sample', 'samples')} of ${season}`).join(', ')}.`,
  toSheets: 'Result sheets',
  published: 'Published releases',
  none: 'Nothing was published yet.',
  columns: ['Release', 'Day', 'What readers are told', 'How it stands', 'Drafted by', 'Published by'],
  stands: (errata: number) => (errata === 0 ? 'stands' : `stands, with ${many(errata, 'erratum', 'errata')}`),
  withdrawn: (when: string, why: string) => `withdrawn ${day(when)}: ${why}`,
  byCommand: 'by command',
  practice: 'How releases are published',
  onePerson: 'Whoever drafted a release may publish it.',
  twoPersonsOn: 'Whoever drafted a release cannot publish it: another publisher must.',
  lastJob: {
    failed: (message: string) => `The last draft could not be made. ${message}`,
    cancelled: (by: string) => `The last draft was cancelled by ${by}.`,
  },

  draftTitle: (number: number) => `Draft of release ${number}`,
  unknownDraft: 'There is no such draft.',
  decided: {
    published: (by: string, when: string, number: number) =>
      `${by} published this draft on ${when} as release ${number}.`,
    dropped: (by: string, when: string) => `This draft was dropped on ${when} (${by}).`,
  },
  headline: (published: number, withheld: number) =>
    `${count(published)} cells would be shown and ${count(withheld)} withheld.`,
  headlineMore: (primary: number, complementary: number) =>
    `Of the withheld ones, ${count(primary)} rest on too few populations or operations; ${count(complementary)} more are withheld so that these cannot be worked out.`,
  auditClean: (programs: number) =>
    `The audit is clean: ${count(programs)} linear programs, over this and all earlier releases together, found no withheld count that could be worked out.`,
  madeBy: (by: string, when: string) => `Drafted by ${by}, ${when}.`,
  notes: 'What stays out',
  heldResults: (results: number) =>
    `${many(results, 'result stays', 'results stay')} out because the first find in its state awaits a second run.`,
  waiting: (units: number, results: number) =>
    `${many(results, 'late result or correction waits', 'late results and corrections wait')} (${many(units, 'unit', 'units')} of county × season × weed × group): alone they would change a public cell by so little that somebody could be recognised. They enter with others later.`,
  waitingColumns: ['County', 'Season', 'Weed × group', 'To enter', 'To leave', 'Corrected', 'Why it waits'],
  waitingCaption: 'What waits',
  nothingOut: 'Nothing stays out: all results with their sender’s consent are in it.',
  lost: 'What is lost by withholding',
  lostText:
    'Exact counts of the screened populations on the left, and what of them a reader finds in a public number.',
  lostColumns: [
    'Table',
    'Cells',
    'Shown',
    'Withheld',
    'To protect others',
    'Left out',
    'Populations',
    'Inside a public number',
  ],
  levels: {
    'county or area × window': 'County or area × window',
    'district × window': 'District × window',
    'district × season': 'District × season',
    'state × season': 'State × season',
    'region × season': 'Region × season',
  } satisfies Record<Level, string>,
  share: (part: number, whole: number) => (whole === 0 ? '–' : percent(part / whole)),
  byPair: 'By weed and group',
  byPairColumns: [
    'Weed × group',
    'Populations in windows',
    'Shown by county or area',
    'State × season shown',
  ],
  mapHeading: 'What the public map loses',
  changesHeading: (number: number) => `What changes since release ${number}`,
  firstRelease: 'This would be the first release that stands: there is none to compare it with.',
  changesAll: (c: { appeared: number; changed: number; disappeared: number }, same: number) =>
    `${many(c.appeared, 'new cell', 'new cells')}, ${many(c.changed, 'cell that says', 'cells that say')} something else, ${count(c.disappeared)} no longer there, ${count(same)} the same.`,
  newSeasons: (seasons: readonly number[]) => `Seasons closed since: ${seasons.join(', ')}.`,
  newWindows: (windows: readonly string[]) => `New windows: ${windows.join(', ')}.`,
  changesColumns: [
    'Weed × group',
    'New cells',
    'Saying something else',
    'Withheld now',
    'Shown now',
    'No longer there',
  ],
  changesCaption: 'Cells that differ, by weed and group',
  findings: 'Findings that differ',
  noFindings: 'Every finding says the same.',
  findingBefore: 'Before:',
  findingGone: 'No longer there.',
  findingNew: 'New:',
  findingNow: 'Now:',
  files: 'Files that it would have',
  filesColumns: ['File', 'Size'],
  decide: 'Decide',
  publishText: (number: number, date: string) =>
    `Release ${number} of ${day(date)} becomes public at once, exactly as shown here. It can never be changed: only an erratum can be added, or the release withdrawn, and what was read until then cannot be called back.`,
  publishButton: (number: number) => `Publish release ${number}`,
  mayNotPublish: 'Publishing asks for the role of a publisher.',
  ownDraft: 'You drafted this release, and your programme asks that another person publishes it.',
  publishedNow: (number: number) => `Release ${number} is public.`,
  dropText: 'Dropping it takes nothing back: nothing of it is public.',
  dropButton: 'Drop this draft',
  dropped: 'The draft is dropped.',

  releaseTitle: (number: number) => `Release ${number}`,
  unknownRelease: 'There is no such release.',
  seeIt: 'See it as the public does',
  facts: (date: string, pairs: number, seasons: string) =>
    `Of ${day(date)}: ${many(pairs, 'pair', 'pairs')} of weed and group, closed seasons ${seasons}.`,
  audit: 'Audit',
  auditOf: (shown: number, withheld: number, programs: number) =>
    `Clean when it was published: ${count(shown)} cells shown, ${count(withheld)} withheld, ${count(programs)} linear programs.`,
  errataHeading: 'Errata',
  noErrata: 'None.',
  erratumText:
    'An erratum is a dated note beside the release: what is wrong, and what to do. The release itself does not change.',
  erratumField: 'What is wrong, and what to do',
  erratumButton: 'Add this erratum',
  erratumAdded: (number: number) =>
    `Erratum ${number} stands beside the release, on its page and in its feed.`,
  withdrawHeading: 'Withdraw the release',
  withdrawText:
    'A withdrawn release is read no more; its number and your reason stay in the list. What was read, kept or exported before cannot be called back. Later releases are still audited beside it.',
  withdrawField: 'Reason, for everybody to read',
  withdrawButton: (number: number) => `Withdraw release ${number}`,
  withdrawnNow: (number: number) => `Release ${number} is withdrawn.`,
  whatErratum: 'The erratum',
  whatReason: 'The reason',
  whatNote: 'What readers should know',
} as const;
