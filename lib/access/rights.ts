import type { Role } from '@/lib/vocabulary/roles';

/**
 * What can be done on the staff side, and by whom: the one table of rights. Pages ask for a right to be seen, actions
 * for one to be used; the log of activity names them.
 */
export const RIGHTS = {
  'home.see': ['educator', 'analyst', 'publisher', 'administrator'],
  'account.change': ['educator', 'analyst', 'publisher', 'administrator'],
  'counties.see': ['educator', 'analyst', 'publisher', 'administrator'],
  'samples.see': ['analyst', 'publisher', 'administrator'],
  'samples.report': ['analyst', 'publisher'],
  'sheets.see': ['analyst', 'publisher', 'administrator'],
  'sheets.import': ['analyst'],
  'sheets.undo': ['analyst'],
  'questions.see': ['analyst', 'publisher', 'administrator'],
  'questions.answer': ['analyst'],
  'results.see': ['analyst', 'publisher', 'administrator'],
  'results.correct': ['analyst'],
  'finds.see': ['analyst', 'publisher', 'administrator'],
  'finds.confirm': ['analyst'],
  'map.see': ['analyst', 'publisher', 'administrator'],
  'jobs.see': ['analyst', 'publisher', 'administrator'],
  'jobs.cancel': ['analyst', 'publisher'],
  'analysis.see': ['analyst', 'publisher', 'administrator'],
  'analysis.start': ['analyst', 'publisher'],
  'seasons.see': ['analyst', 'publisher', 'administrator'],
  'seasons.close': ['publisher'],
  'releases.see': ['analyst', 'publisher', 'administrator'],
  'releases.draft': ['analyst', 'publisher'],
  'releases.publish': ['publisher'],
  'releases.withdraw': ['publisher'],
  'briefing.make': ['analyst', 'publisher'],
  'settings.see': ['analyst', 'publisher', 'administrator'],
  'settings.change': ['administrator'],
  'laboratories.change': ['analyst', 'administrator'],
  'vocabulary.add': ['analyst', 'administrator'],
  'finds.earlier': ['analyst', 'administrator'],
  'privacy.delete': ['administrator'],
  'people.manage': ['administrator'],
  'activity.see': ['administrator'],
} as const satisfies Record<string, readonly Role[]>;

export type Right = keyof typeof RIGHTS;

/** Whether one of these roles has a right. */
export function may(roles: readonly Role[], right: Right): boolean {
  return RIGHTS[right].some((role) => roles.includes(role));
}
