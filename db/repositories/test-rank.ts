import { PRECEDENCE } from '@/lib/cube/facts';

/** SQL for what a test `t` showed, the strongest 0: a population shows the strongest of its tests, which is the least. */
export const RANK = `case coalesce(t.result, t.kind) ${PRECEDENCE.map((result, rank) => `when '${result}' then ${rank}`).join(' ')} end`;

/** The number that `RANK` gives a result. */
export function rankOf(result: (typeof PRECEDENCE)[number]): number {
  return PRECEDENCE.indexOf(result);
}
