import { speedFrom } from '../stated-speed';
import type { Worker } from '../work';

/** A speed from a stated beginning. Nothing is stored but the job's outcome. */
export const statedSpeed: Worker<'stated-speed'> = async ({ db, request, tell }) => {
  tell('Fitting a front that began there');
  return speedFrom(db, request);
};
