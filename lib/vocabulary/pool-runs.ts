import { type CaseDefinition, resultOf, type Screening } from './case-definition';
import type { Result } from './terms';

export type PooledRuns =
  | { kind: 'pooled'; treated: number; alive: number; result: Result }
  /** The runs alone differ: a person decides; `pooled` is what all plants together would say. */
  | { kind: 'question'; results: Result[]; pooled: Result };

/**
 * Several valid runs of one population with one active and rate: plants are added up before the definition applies.
 *
 * @param runs one or more, of one assay and rate
 * @throws RangeError for no run, or runs of different assays or rates
 */
export function poolRuns(definition: CaseDefinition, runs: readonly Screening[]): PooledRuns {
  const [first] = runs;
  if (!first) throw new RangeError('There is no run to pool.');
  if (runs.some((run) => run.assay !== first.assay || run.rateMultiple !== first.rateMultiple)) {
    throw new RangeError('Only runs of one assay and one rate can be pooled.');
  }
  const treated = runs.reduce((sum, run) => sum + run.treated, 0);
  const alive = runs.reduce((sum, run) => sum + run.alive, 0);
  const result = resultOf(definition, { ...first, treated, alive });
  const results = runs.map((run) => resultOf(definition, run));
  if (results.some((one) => one !== results[0])) return { kind: 'question', results, pooled: result };
  return { kind: 'pooled', treated, alive, result };
}
