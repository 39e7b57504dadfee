/** Tested and resistant populations of one county and season. */
export interface FrontCount {
  km: number;
  season: number;
  tested: number;
  resistant: number;
}

/**
 * Speed of a travelling front by maximum likelihood on a grid: resistant ~ Binomial(tested, P · logistic((season − a −
 * km / v) / τ)), the model of the project's own statistics brief, here as a check of the planted truth only.
 * @returns the best v and those whose profile lies within 1.92 of it (95 %), km a year
 */
export function fitFront(
  counts: readonly FrontCount[],
  start: number,
): { best: number; low: number; high: number } {
  const profile = new Map<number, number>();
  for (let v = 24; v <= 64; v += 1) {
    let best = Number.NEGATIVE_INFINITY;
    for (let a = start - 1; a <= start + 5; a += 0.5) {
      for (const tau of [0.6, 0.8, 1, 1.3, 1.7]) {
        for (const P of [0.65, 0.75, 0.85]) best = Math.max(best, logLikelihood(counts, { v, a, tau, P }));
      }
    }
    profile.set(v, best);
  }
  const top = Math.max(...profile.values());
  const inside = [...profile].filter(([, value]) => value > top - 1.92).map(([v]) => v);
  const best = [...profile].find(([, value]) => value === top)![0];
  return { best, low: Math.min(...inside), high: Math.max(...inside) };
}

function logLikelihood(
  counts: readonly FrontCount[],
  { v, a, tau, P }: { v: number; a: number; tau: number; P: number },
): number {
  let sum = 0;
  for (const { km, season, tested, resistant } of counts) {
    const p = P / (1 + Math.exp(-(season - a - km / v) / tau));
    sum += resistant * Math.log(Math.max(p, 1e-9)) + (tested - resistant) * Math.log(1 - p);
  }
  return sum;
}
