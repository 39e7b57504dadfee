import type { Benchmark } from '../bench';
import { startSteps } from '../support/steps';
import { withDemoDatabase } from './demo-database';

/** Time and memory of each stage on the demonstration. */
export const demo: Benchmark = {
  about: 'Each stage on the demonstration (default size, seed 1): time, and memory of the process at its end',
  async run() {
    const steps = startSteps();
    await withDemoDatabase(steps);
    return [...steps.done];
  },
};
