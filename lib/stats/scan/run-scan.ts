import { checkPermutations } from '../errors';
import { concludeScan } from './conclude';
import { nullMaxima } from './null-maxima';
import type { ScanPlan, ScanResult, ScanRun } from './types';

/** What every scan is from its plan on, on one thread; `lib/findings/threads/scan-workers.ts` does the same on several. */
export function runScan(plan: ScanPlan, { seed, replicates, most }: ScanRun): ScanResult {
  checkPermutations(replicates);
  return concludeScan(plan, nullMaxima(plan, { seed, from: 0, to: replicates }), most);
}
