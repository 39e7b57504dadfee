import { day } from '@/app/messages/en/format';

/** An ISO instant as people read it, in UTC: `November 26, 2026, 14:05 UTC`. */
export function instantWords(instant: string): string {
  return `${day(instant.slice(0, 10))}, ${instant.slice(11, 16)} UTC`;
}
