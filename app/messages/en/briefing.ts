/** The page on which a board's briefing is chosen, and the words of links to documents. */
export const briefing = {
  heading: 'A briefing for a board',
  intro:
    'Two pages of PDF to print, or slides with charts that can be edited: what a release shows of one weed, with maps, trends, the questions that boards ask, and the cautions. All of it is public. The documents are in English.',
  weed: 'Weed',
  groups: (most: number) => `Herbicide groups, ${most} at most`,
  seasons: 'Seasons',
  districts: 'Districts; none is the whole region',
  pdf: 'Make the PDF',
  pptx: 'Make the slides',
  staff:
    'Numbers by funder, days to a result and where to look next are for the programme’s staff, who can show them to a board.',
  link: 'A briefing for a board, as PDF or slides',
  handout: 'This county on one page, to print (PDF)',
};
