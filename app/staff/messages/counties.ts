/** Texts of the exact numbers by county. */
export const countiesTexts = {
  title: 'Counties, exact',
  own: 'The counties that are assigned to you. Ask an administrator where one is missing.',
  all: 'Every county from which something was sent.',
  none: 'No county is assigned to you yet. Ask an administrator of your programme.',
  listCaption: 'Counties, with what came from them',
  listColumns: ['County', 'Populations received', 'Newest season'],
  nothing: 'nothing yet',
  of: (county: string) => `${county}, exact`,
  intro:
    'Exact counts of whole-plant tests, all sampling designs together; a population counts once for a herbicide group. The public sees less: small counts are withheld there. Speak of single farms to nobody.',
  caption: (county: string) => `What was screened from ${county}`,
  columns: [
    'Weed and herbicide group',
    'Resistant of screened',
    'Share, 95 % interval',
    'First found',
    'Operations',
    'By season: resistant of screened',
  ],
  weed: (weed: string, group: number) => `${weed}, group ${group}`,
  ofScreened: (resistant: number, tested: number) => `${resistant} of ${tested}`,
  held: (held: number) => `${held} await a second run and are in no release`,
  notFound: 'not found',
  empty:
    'Nothing from this county was screened. That is no information, which is not the same as none found.',
  notYours: 'This county is not assigned to you.',
  public: 'This county as the public sees it',
  back: 'All counties',
} as const;
