import { nullMaxima, type ReplicateRange } from '@/lib/stats/scan/null-maxima';
import type { ScanPlan } from '@/lib/stats/scan/types';
import { answerQuestions } from './answer';

/** The replicates of the plan that the thread was sent last. */
export interface ScanQuestion {
  /** Left out where it is the last one again. */
  plan?: ScanPlan;
  range: ReplicateRange;
}

let plan: ScanPlan;

answerQuestions<ScanQuestion, Float64Array[]>((question) => {
  plan = question.plan ?? plan;
  return nullMaxima(plan, question.range);
});
