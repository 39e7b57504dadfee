import type { Season } from '@/lib/vocabulary/terms';
import type { Random } from './random';

const DAY = 86_400_000;

/**
 * When the seed was collected (within the days of the year given, 1 = 1 January) and when it reached the laboratory,
 * two to twenty days later. ISO days.
 */
export function collectedAndReceived(
  season: Season,
  [from, to]: readonly [number, number],
  random: Random,
): { collected: string; received: string } {
  const collected = Date.UTC(season, 0, from + random.below(to - from + 1));
  return { collected: isoDay(collected), received: isoDay(collected + (2 + random.below(19)) * DAY) };
}

/** The number that spreadsheets keep for an ISO day: days since 30 December 1899. */
export function spreadsheetSerial(day: string): number {
  return Math.round((Date.parse(day) - Date.UTC(1899, 11, 30)) / DAY);
}

/** The ISO day so many days later. */
export function daysLater(day: string, days: number): string {
  return isoDay(Date.parse(day) + days * DAY);
}

function isoDay(time: number): string {
  return new Date(time).toISOString().slice(0, 10);
}
