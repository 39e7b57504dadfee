import type { Objective } from '../../optimise/minimise';
import { mirror } from '../hazard/likelihood';
import { arrivalCells, type PlaceTerms } from './arrival-likelihood';
import { arrivalTimes } from './arrival-times';
import { risingShareCells } from './rising-share-likelihood';
import { type FrontModel, LOG_WIDTH, LOGIT_LEVEL, type SpreadMap } from './types';

/** Negative log-likelihood of a front's θ, with the sum of squares of the places' scores as curvature. */
export interface FrontObjective extends Pick<Objective, 'size' | 'evaluate'> {
  /** Places with something tested. */
  places: number;
  /** For each place of the counts how its log-likelihood changes with its expected time; 0 where nothing was tested. */
  timeScores(theta: Float64Array): Float64Array;
  /** Hands over each tested place's gradient of its log-likelihood, one after another in the same array. */
  eachScore(theta: Float64Array, see: (score: Float64Array) => void): void;
}

/**
 * @throws StatsError `bad argument` for `arrival` with places of several points: they are not reached at one time
 */
export function frontObjective(
  model: FrontModel,
  map: SpreadMap,
  origins: number,
  isDirected = false,
): FrontObjective {
  const times = arrivalTimes(map.points, origins, isDirected);
  const terms: PlaceTerms = (model === 'arrival' ? arrivalCells : risingShareCells)(map, times.time);
  const { size } = times;
  const score = new Float64Array(size);
  const addToScore = (point: number, slope: number) => times.addGradient(point, slope, score);
  const write = (theta: Float64Array) => {
    times.write(theta);
    terms.prepare(Math.exp(theta[LOG_WIDTH]!), logistic(theta[LOGIT_LEVEL]!));
  };
  /** Of the place whose log-likelihood was asked for last. */
  const writeScore = () => {
    score.fill(0);
    score[LOG_WIDTH] = terms.byLogWidth();
    score[LOGIT_LEVEL] = terms.byLogitLevel();
    terms.forTimes(addToScore);
  };
  return {
    size,
    places: terms.places.length,
    eachScore(theta, see) {
      write(theta);
      for (let k = 0; k < terms.places.length; k += 1) {
        terms.logLikelihood(k);
        writeScore();
        see(score);
      }
    },
    timeScores(theta) {
      write(theta);
      const scores = new Float64Array(map.counts.places);
      terms.places.forEach((place, k) => {
        terms.logLikelihood(k);
        terms.forTimes((_, slope) => {
          scores[place]! += slope;
        });
      });
      return scores;
    },
    evaluate(theta, gradient, curvature) {
      gradient?.fill(0);
      curvature?.fill(0);
      write(theta);
      let value = 0;
      for (let k = 0; k < terms.places.length; k += 1) {
        value -= terms.logLikelihood(k);
        if (!gradient || !curvature) continue;
        writeScore();
        for (let j = 0; j < size; j += 1) {
          gradient[j]! -= score[j]!;
          for (let k = 0; k <= j; k += 1) curvature[j * size + k]! += score[j]! * score[k]!;
        }
      }
      if (curvature) mirror(curvature, size);
      return value;
    },
  };
}

/** 0 … 1. */
export function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
