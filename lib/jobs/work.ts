import type { StaffDatabase } from '@/db/clients/staff';
import type { QueueName } from '@/db/queue';
import type { RequestOf } from './kinds';

/** What a job is carried out with. */
export interface Work<Kind extends QueueName> {
  db: StaffDatabase;
  request: RequestOf<Kind>;
  /** Who asked, by name, and their account. */
  by: string;
  personId: string | null;
  /** Tells how far it is: what is being done, in words, and which part of how many. Call it as often as is easy. */
  tell: (stage: string, done?: number, whole?: number) => void;
}

/** Carries out one kind of job in a process of its own. What it returns is kept as JSON as the job's outcome. */
export type Worker<Kind extends QueueName> = (work: Work<Kind>) => Promise<unknown>;

/**
 * What carries out each kind. A job that is cancelled ends with its process, at any point: what must be kept whole is
 * done in one transaction. It may be begun anew after a crash, and must then find its way.
 */
export const WORKERS: { [Kind in QueueName]: () => Promise<Worker<Kind>> } = {
  analysis: async () => (await import('./kinds/analysis')).analysis,
  import: async () => (await import('./kinds/import')).importUpload,
  'undo-import': async () => (await import('./kinds/undo-import')).undoSheet,
  'remembered-reading': async () => (await import('./kinds/remembered-reading')).rememberedReading,
  'case-definition': async () => (await import('./kinds/case-definition')).rederive,
  'release-draft': async () => (await import('./kinds/release-draft')).releaseDraft,
  'finding-loss': async () => (await import('./kinds/finding-loss')).findingLoss,
  'stated-speed': async () => (await import('./kinds/stated-speed')).statedSpeed,
  'policy-consequences': async () => (await import('./kinds/policy-consequences')).policyConsequences,
};
