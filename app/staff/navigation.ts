import type { Right } from '@/lib/access/rights';

/** A page that the navigation leads to, for whoever has the right to see it. */
export interface Destination {
  href: string;
  words: string;
  right: Right;
}

/**
 * The navigation, in the order of the work: Home, Samples, Sheets, Questions, Results, Counties, Map, Analysis, Releases,
 * Briefing, Settings, People, Activity. A page stands here once it is there.
 */
export const NAVIGATION: readonly Destination[] = [
  { href: '/staff', words: 'Home', right: 'home.see' },
  { href: '/staff/samples', words: 'Samples', right: 'samples.see' },
  { href: '/staff/sheets', words: 'Sheets', right: 'sheets.see' },
  { href: '/staff/questions', words: 'Questions', right: 'questions.see' },
  { href: '/staff/results', words: 'Results', right: 'results.see' },
  { href: '/staff/counties', words: 'Counties', right: 'counties.see' },
  { href: '/staff/map', words: 'Map', right: 'map.see' },
  { href: '/staff/analysis', words: 'Analysis', right: 'analysis.see' },
  { href: '/staff/finds', words: 'First finds', right: 'finds.see' },
  { href: '/staff/result-sheets', words: 'Result sheets', right: 'samples.see' },
  { href: '/staff/seasons', words: 'Seasons', right: 'seasons.see' },
  { href: '/staff/releases', words: 'Releases', right: 'releases.see' },
  { href: '/staff/briefing', words: 'Briefing', right: 'briefing.make' },
  { href: '/staff/settings', words: 'Settings', right: 'settings.see' },
  { href: '/staff/people', words: 'People', right: 'people.manage' },
  { href: '/staff/activity', words: 'Activity', right: 'activity.see' },
];
