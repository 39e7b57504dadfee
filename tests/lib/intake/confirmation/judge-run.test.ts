import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckKind, type CheckTray, judgeRun } from '@/lib/intake/confirmation/judge-run';

// Checks of a run: common practice, no source; the limits are own rules. All trays are invented.
const tray = (check: CheckKind, alive: number, treated: number, rateMultiple: number | null = 1): CheckTray =>
  Object.freeze({ check, rateMultiple, treated, alive });

describe('a run counts by its checks', () => {
  it.each([
    ['the susceptible check died', [tray('susceptible', 0, 20)], true],
    ['at most one in ten of it lived', [tray('susceptible', 2, 20)], true],
    ['more of it lived', [tray('susceptible', 3, 20)], false],
    ['it lived at twice the label rate', [tray('susceptible', 0, 20), tray('susceptible', 9, 20, 2)], false],
    ['it lived below the label rate', [tray('susceptible', 20, 20, 0.5)], true],
    ['it lived unsprayed', [tray('susceptible', 20, 20, null)], true],
    ['the resistant check lived', [tray('resistant', 1, 20)], true],
    ['it died out at the label rate', [tray('resistant', 0, 20)], false],
    ['it died out above the label rate', [tray('resistant', 20, 20), tray('resistant', 0, 20, 2)], true],
    ['one tray of it died out, another did not', [tray('resistant', 0, 20), tray('resistant', 5, 20)], true],
    ['untreated plants lived', [tray('untreated', 10, 20, null)], true],
    ['most of them died', [tray('untreated', 9, 20, 0)], false],
    ['a check of no plants', [tray('resistant', 0, 0), tray('untreated', 0, 0, 0)], true],
  ])('%s', (_, trays, valid) => {
    expect(judgeRun(Object.freeze(trays)).valid).toBe(valid);
  });

  it('and says what misbehaved, or what was looked at', () => {
    expect(judgeRun([tray('susceptible', 3, 20), tray('susceptible', 4, 20)]).why).toContain('7 of 40 alive');
    expect(judgeRun([tray('resistant', 0, 12)]).why).toMatch(/resistant check died.*0 of 12.*dose and seed/);
    expect(judgeRun([tray('untreated', 1, 20, 0)]).why).toContain('untreated plants died (1 of 20 alive)');
    expect(judgeRun([tray('susceptible', 0, 20), tray('untreated', 19, 20, null)])).toEqual({
      valid: true,
      why: 'susceptible check 0 of 20 alive, untreated 19 of 20 alive',
    });
    expect(judgeRun([])).toEqual({ valid: true, why: 'no check was counted' });
  });

  it('in whatever order and in however many trays they stand', () => {
    const trays = fc.array(
      fc.record({
        check: fc.constantFrom<CheckKind>('susceptible', 'resistant', 'untreated'),
        rateMultiple: fc.constantFrom(null, 0, 0.5, 1, 2),
        treated: fc.constant(20),
        alive: fc.nat(20),
      }),
    );
    fc.assert(
      fc.property(trays, (list) => {
        const single = list.flatMap((one) =>
          Array.from({ length: one.treated }, (_, plant) => ({
            ...one,
            treated: 1,
            alive: plant < one.alive ? 1 : 0,
          })),
        );
        expect(judgeRun([...list].reverse())).toEqual(judgeRun(list));
        expect(judgeRun(single)).toEqual(judgeRun(list));
      }),
    );
  });

  it('and one more survivor of the susceptible check never makes a void run count', () => {
    const trays = fc.tuple(fc.nat(19), fc.nat(20), fc.nat(20));
    fc.assert(
      fc.property(trays, ([susceptible, resistant, untreated]) => {
        const valid = (alive: number) =>
          judgeRun([
            tray('susceptible', alive, 20),
            tray('resistant', resistant, 20),
            tray('untreated', untreated, 20, 0),
          ]).valid;
        if (valid(susceptible + 1)) expect(valid(susceptible)).toBe(true);
      }),
    );
  });
});
