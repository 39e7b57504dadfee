import { StatsError } from './errors';

/**
 * The x at which a rising function passes a target: bracketed outwards from `start` in doubling steps, then halved
 * down to the last bit that the function can tell.
 *
 * @param rising finite everywhere it is asked for, and not falling
 * @throws StatsError `bad argument` where it does not pass the target within 2^40 of the start
 * @cost about 60 + the doublings calls
 */
export function risingRoot(rising: (x: number) => number, target: number, start = 0): number {
  let low = start;
  let high = start;
  for (let step = 1; rising(low) > target; step *= 2) low = away(start - step, start);
  for (let step = 1; rising(high) < target; step *= 2) high = away(start + step, start);
  for (let halving = 0; halving < 100; halving += 1) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high || high - low < 1e-14) break;
    if (rising(middle) < target) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function away(x: number, start: number): number {
  if (Math.abs(x - start) > FARTHEST) {
    throw new StatsError('bad argument', `No root within 2^40 of ${start}: the function does not get there.`);
  }
  return x;
}

const FARTHEST = 2 ** 40;
