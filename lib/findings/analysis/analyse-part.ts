import { analyseMultiple } from '../multiple/analyse-multiple';
import { analyseSpread } from '../spread/analyse-spread';
import { analyseMap } from './analyse-map';
import type { AnalysisPart, AnalysisTask } from './types';

/** Same task, same answer, on whatever thread. Private. */
export function analysePart(task: AnalysisTask): AnalysisPart {
  if (task.kind === 'map') return analyseMap(task);
  return task.kind === 'spread' ? analyseSpread(task) : analyseMultiple(task);
}
