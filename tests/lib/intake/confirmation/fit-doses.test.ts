import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DoseTray, fitDoses } from '@/lib/intake/confirmation/fit-doses';

// Invented survival, as the curve 1 / (1 + (dose / ed50)^slope) gives it, of 50 plants a tray and two trays a dose.
const DOSES = [0.125, 0.25, 0.5, 1, 2, 4, 8, 16];
const trays = (ed50: number, slope = 2.5, plants = 50): DoseTray[] =>
  DOSES.flatMap((dose) =>
    [0, 1].map(() => ({ dose, treated: plants, alive: Math.round(plants / (1 + (dose / ed50) ** slope)) })),
  );

describe('a dose series', () => {
  it('gives back the ED50 and the resistance index that it was made with', () => {
    const [fit] = fitDoses([{ sample: 'T-1', trays: trays(3) }], trays(0.3));
    expect(fit).toMatchObject({ sample: 'T-1', doses: 8, plants: 800, why: null });
    if (fit!.ed50?.kind !== 'estimate' || fit!.index?.kind !== 'estimate') throw new Error('not estimated');
    expect(fit!.ed50.dose).toBeCloseTo(3, 1);
    expect(fit!.slope!.value).toBeCloseTo(2.5, 1);
    expect(fit!.index.low).toBeLessThan(10);
    expect(fit!.index.high).toBeGreaterThan(10);
    expect(fit!.index.index).toBeCloseTo(10, 0);
  });

  it('whose check died at every dose has an index that is bounded by the lowest one', () => {
    const dead = DOSES.map((dose) => ({ dose, treated: 50, alive: 0 }));
    const [fit] = fitDoses([{ sample: 'T-1', trays: trays(3) }], dead);
    expect(fit!.index).toMatchObject({ kind: 'above' });
    expect(fit!.index!.kind === 'above' && fit!.index!.index).toBeCloseTo(3 / 0.125, 0);
    expect(fit!.why).toMatch(/^Susceptible check: .*\w/);
  });

  it('that cannot be fitted says why, and where the ED50 lies if that is known', () => {
    const of = (alive: number) => DOSES.map((dose) => ({ dose, treated: 50, alive }));
    const [alive, dead, two] = fitDoses(
      [
        { sample: 'all alive', trays: of(50) },
        { sample: 'all dead', trays: of(0) },
        { sample: 'two doses', trays: trays(3).filter(({ dose }) => dose === 1 || dose === 4) },
      ],
      trays(0.3),
    );
    // The check's ED50 is 0.3.
    expect(alive).toMatchObject({ ed50: { kind: 'above', dose: 16 }, slope: null, index: { kind: 'above' } });
    expect(alive!.index).toHaveProperty('index', expect.closeTo(16 / 0.3, -1));
    expect(dead).toMatchObject({
      ed50: { kind: 'below', dose: 0.125 },
      slope: null,
      index: { kind: 'below' },
    });
    for (const fit of [alive, dead, two]) expect(fit!.why).toMatch(/\w.*\.$/);
    expect(two!.ed50).toBeNull();
  });

  it('of which nothing follows for the index has none', () => {
    const dead = DOSES.map((dose) => ({ dose, treated: 50, alive: 0 }));
    const [fit] = fitDoses([{ sample: 'T-1', trays: dead }], dead);
    expect(fit).toMatchObject({ ed50: { kind: 'below' }, index: null });
  });

  it('takes the share of untreated plants that die as a limit, and not as the herbicide’s', () => {
    // Invented: a fifth of the plants would die anyway.
    const weak = (ed50: number) =>
      trays(ed50).map((tray) => ({ ...tray, alive: Math.round(tray.alive * 0.8) }));
    const untreated = [{ treated: 100, alive: 80 }];
    const [plain] = fitDoses([{ sample: 'T-1', trays: weak(3) }], weak(0.6));
    const [fit] = fitDoses([{ sample: 'T-1', trays: weak(3) }], weak(0.6), untreated);
    if (fit!.ed50?.kind !== 'estimate' || fit!.index?.kind !== 'estimate') throw new Error('not estimated');
    expect(fit!.ed50.dose).toBeCloseTo(3, 0);
    expect(Math.abs(fit!.ed50.dose / 3 - 1)).toBeLessThan(0.05);
    expect(Math.abs(fit!.index.index / 5 - 1)).toBeLessThan(0.1);
    expect(plain!.ed50?.kind === 'estimate' && plain!.ed50.dose).toBeLessThan(2.5);
  });

  it('says the same with untreated plants that all live as without, and whatever else stood in its run', () => {
    const one = { sample: 'T-1', trays: trays(3) };
    const [plain] = fitDoses([one], trays(0.3));
    const [beside] = fitDoses([one], trays(0.3), [{ treated: 40, alive: 40 }]);
    const [, among] = fitDoses([{ sample: 'T-0', trays: trays(0.1) }, one], trays(0.3));
    expect(among).toEqual(plain);
    const numbers = (fit: typeof plain) => [fit!.ed50, fit!.slope!.value, fit!.index];
    expect(JSON.stringify(numbers(beside), rounded)).toBe(JSON.stringify(numbers(plain), rounded));
  });

  it('without a series of the check has no index, and says so', () => {
    const [fit] = fitDoses([{ sample: 'T-1', trays: trays(3) }], []);
    expect(fit).toMatchObject({ ed50: { kind: 'estimate' }, index: null });
    expect(fit!.why).toContain('no dose series of its susceptible check');
  });

  it('moves with the scale of its doses, and its index stays', () => {
    const scaled = (all: DoseTray[], by: number) => all.map((tray) => ({ ...tray, dose: tray.dose * by }));
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 10, noNaN: true }), (by) => {
        const [plain] = fitDoses([{ sample: 'T', trays: trays(3) }], trays(0.3));
        const [other] = fitDoses([{ sample: 'T', trays: scaled(trays(3), by) }], scaled(trays(0.3), by));
        if (plain!.ed50?.kind !== 'estimate' || other!.ed50?.kind !== 'estimate')
          throw new Error('not estimated');
        if (plain!.index?.kind !== 'estimate' || other!.index?.kind !== 'estimate')
          throw new Error('no index');
        expect(other!.ed50.dose / plain!.ed50.dose / by).toBeCloseTo(1, 4);
        expect(other!.index.index / plain!.index.index).toBeCloseTo(1, 4);
      }),
      { numRuns: 25, seed: 1 },
    );
  });
});

function rounded(_: string, value: unknown): unknown {
  return typeof value === 'number' ? Number(value.toPrecision(6)) : value;
}
