/** What stands around every page. */
export const foot = {
  label: 'About the numbers',
  methods: 'How the numbers are made',
  privacy: 'What is withheld, and why',
  words: 'Words',
  releases: 'Releases',
  api: 'For programs',
  source:
    'County outlines and names: U.S. Census Bureau. Growers send what they suspect, and none found is not none there.',
};
