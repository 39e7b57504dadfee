import type { PlaceStatus } from '@/lib/vocabulary/terms';

/** How many of the places have which look. */
export function countLooks(statuses: readonly PlaceStatus[]): Record<PlaceStatus, number> {
  const counts = { confirmed: 0, 'none confirmed': 0, 'no public information': 0, 'not screened': 0 };
  for (const status of statuses) counts[status]++;
  return counts;
}
