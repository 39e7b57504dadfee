import { findClustering } from '../find-clustering';
import { CODES } from '../names';
import { testMap } from './test-map';
import type { MapAnalysis, MapTask } from './types';

/** Orders of the global test behind the verdict. */
const PERMUTATIONS = 9_999;

/** The verdict of one map and the tests behind it. Same task, same analysis, on whatever thread. Private. */
export function analyseMap(task: MapTask): MapAnalysis {
  const { species, group, period, design, grain, seed, observations } = task;
  const clustering = findClustering({
    ...{ observations, neighbours: task.neighbours, points: task.points, senders: task.senders },
    ...{ grain, species, group, period, seed },
    permutations: PERMUTATIONS,
    names: {
      ...CODES,
      species: () => task.speciesName,
      place: (_, key) => task.placeNames.get(key) ?? key,
    },
  });
  const tests = clustering.verdict === 'too little tested' ? null : testMap(task);
  return { kind: 'map', species, group, period, design, grain, seed, clustering, tests };
}
