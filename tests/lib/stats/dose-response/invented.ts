import fc from 'fast-check';
import type { DoseFit, NoFit } from '@/lib/stats/dose-response/types';

/** Everything here is invented: trays of plants, or pots with a weight, of one or two curves at doubling doses. */
export interface Trays {
  dose: readonly number[];
  treated: readonly number[];
  alive: readonly number[];
  curve: readonly number[];
}

export interface Pots {
  dose: readonly number[];
  response: readonly number[];
  curve: readonly number[];
}

interface Plan {
  doses: number;
  untreated: boolean;
  trays: number;
  /** log₂ of the ED50 and slope of each curve. */
  curves: readonly { ed50: number; slope: number }[];
  lower: number;
  upper: number;
  noise: readonly number[];
}

const plan = (most: { limits: boolean; curves: number }): fc.Arbitrary<Plan> =>
  fc.record({
    doses: fc.integer({ min: 5, max: 8 }),
    untreated: fc.boolean(),
    trays: fc.integer({ min: 1, max: 3 }),
    curves: fc.array(
      fc.record({
        ed50: fc.double({ min: -1.5, max: 2.5, noNaN: true }),
        slope: fc.double({ min: 0.8, max: 4, noNaN: true }),
      }),
      { minLength: most.curves, maxLength: most.curves },
    ),
    lower: most.limits ? fc.double({ min: 0, max: 0.2, noNaN: true }) : fc.constant(0),
    upper: most.limits ? fc.double({ min: 0.8, max: 1, noNaN: true }) : fc.constant(1),
    noise: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 60, maxLength: 60 }),
  });

/** Trays of 40 plants near such curves: up to two plants off. */
export const trays = (most = { limits: false, curves: 1 }): fc.Arbitrary<Trays> =>
  plan(most).map((made) => {
    const rows = rowsOf(made);
    return frozen({
      dose: rows.map(({ dose }) => dose),
      curve: rows.map(({ curve }) => curve),
      treated: rows.map(() => 40),
      alive: rows.map(({ dose, share }, row) =>
        // Without herbicide a plant dies only where the upper limit says so.
        dose === 0 && made.upper === 1
          ? 40
          : Math.min(40, Math.max(0, Math.round(40 * share + 2 * made.noise[row % 60]!))),
      ),
    });
  });

/** Pots near such curves, on a scale of 10: up to 0.6 off, and no two of a dose alike. */
export const pots = (most = { limits: true, curves: 1 }): fc.Arbitrary<Pots> =>
  plan(most).map((made) => {
    const rows = rowsOf({ ...made, untreated: true, trays: Math.max(2, made.trays) });
    return frozen({
      dose: rows.map(({ dose }) => dose),
      curve: rows.map(({ curve }) => curve),
      response: rows.map(
        ({ share }, row) => 10 * share + 0.5 * made.noise[(7 * row) % 60]! + (row % 2 === 0 ? 0.1 : -0.1),
      ),
    });
  });

function rowsOf({ doses, untreated, trays: count, curves, lower, upper }: Plan) {
  const levels = Array.from({ length: doses }, (_, k) => 2 ** (k - 3));
  if (untreated) levels.unshift(0);
  return curves.flatMap(({ ed50, slope }, curve) =>
    levels.flatMap((dose) =>
      Array.from({ length: count }, () => ({
        dose,
        curve,
        share: lower + (upper - lower) / (1 + (dose / 2 ** ed50) ** slope),
      })),
    ),
  );
}

/** The fit, or an error with the reason. */
export function fitted(fit: DoseFit | NoFit): DoseFit {
  if (fit.kind === 'no fit') throw new Error(`${fit.reason}: ${fit.message}`);
  return fit;
}

/** (slope, ln ED50) of each curve, then lower and upper limit. */
export function parametersOf({ curves }: DoseFit): number[] {
  const [{ lower, upper }] = curves as [DoseFit['curves'][number]];
  return [
    ...curves.flatMap(({ slope, ed50 }) => [slope.value, Math.log(ed50.value)]),
    lower.value,
    upper.value,
  ];
}

/** Places of the parameters that were estimated and not held at a bound. */
export function freeOf({ curves }: DoseFit): number[] {
  const [{ lower, upper }] = curves as [DoseFit['curves'][number]];
  const all = [...curves.flatMap(({ slope, ed50 }) => [slope, ed50]), lower, upper];
  return all.flatMap(({ state }, k) => (state === 'free' ? [k] : []));
}

/** Whether a number anywhere in it is NaN. */
export function holdsNaN(value: unknown): boolean {
  if (typeof value === 'number') return Number.isNaN(value);
  if (ArrayBuffer.isView(value)) return Array.from(value as Float64Array).some(Number.isNaN);
  return value !== null && typeof value === 'object' && Object.values(value).some(holdsNaN);
}

/** Frozen with its columns, so that a kernel that wrote into them would throw. */
function frozen<T extends object>(columns: T): T {
  for (const column of Object.values(columns)) Object.freeze(column);
  return Object.freeze(columns);
}
