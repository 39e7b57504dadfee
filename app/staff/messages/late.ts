import { waitReason } from '@/lib/jobs/outlook-words';
import type { Waiting } from '@/lib/release/revision/types';

/** Texts about late changes that wait. */
export const lateTexts = {
  made: (number: number, isReleased: boolean) =>
    isReleased ? `release ${number}` : `the draft of release ${number}`,
  waits: (unit: string, made: string, why: Waiting['why']) =>
    `Late changes of ${unit}, waited when ${made} was made (${waitReason(why)}): they enter with others later.`,
  newer: (made: string) =>
    `It was changed after ${made} was made: the next draft says whether that can enter, or waits for others.`,
  more: 'What stayed out, and why',
} as const;
