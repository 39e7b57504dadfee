/** Texts of the page on which staff make a board's briefing. */
export const briefingTexts = {
  title: 'Briefing for a board',
  source: 'Made from',
  sources: { private: 'exact counts', release: 'released numbers' },
  intro: {
    private:
      'Two pages, or slides whose charts can be edited, from exact counts: the numbers of the chosen samples, what is new, how fast it moves, where to look next, and what the money bought. Each page says that it is not for distribution; no operation is named.',
    release:
      'Two pages, or slides whose charts can be edited, from what a release shows and nothing else: it may be handed on. Its headlines can be worded here.',
  },
  unworded: 'With the computed headlines anybody can make it:',
  publicLink: 'the public page',
  choose: 'What the briefing is about',
  release: 'Release',
  releaseNumber: (number: number) => `release ${number}`,
  species: 'Weed',
  group: 'Herbicide group',
  second: 'Second group',
  none: 'none',
  window: 'Seasons',
  crop: 'Crop of the field',
  funder: 'Paid for by',
  all: 'all',
  district: 'District',
  region: 'the whole region',
  show: 'Show its headlines',
  headlines: 'Its headlines',
  edit: 'Computed from the numbers. Change the words where the board needs others: a sentence of yours is marked † in the document, the computed one stands beside it, and what was changed is kept with your name.',
  handedOn:
    'This document may be handed on: write nothing that the release does not show, least of all numbers that only the staff know.',
  kind: 'As',
  kinds: { pdf: 'PDF to print', pptx: 'slides' },
  make: 'Make the briefing',
  nothing: {
    private: 'Nothing has been screened yet: bring a sheet in first.',
    release: 'Nothing has been released yet.',
  },
  sentence: (number: number) => `Headline ${number}`,
};
