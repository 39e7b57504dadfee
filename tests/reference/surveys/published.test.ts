import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { clopperPearson } from '@/lib/stats/clopper-pearson';
import { wilsonInterval } from '@/lib/stats/wilson-interval';

interface Survey {
  name: string;
  source: string;
  rows: {
    of: string;
    cases: number;
    tested: number;
    printed: string | null;
    fits: 'rounded' | 'cut' | 'half down' | 'nothing';
    wilson: [number, number];
    clopperPearson: [number, number];
  }[];
}

// Sources stand beside each table in the file; limits were computed outside this project (SciPy).
const { tables }: { tables: Survey[] } = JSON.parse(
  readFileSync(`${import.meta.dirname}/published.json`, 'utf8'),
);

describe.each(tables.map((table) => [`${table.name} (${table.source})`, table] as const))(
  '%s',
  (_, { rows }) => {
    it('has the limits that an outside program gives to its counts', () => {
      for (const { of, cases, tested, wilson, clopperPearson: exact } of rows) {
        for (const [ours, theirs] of [
          [wilsonInterval(cases, tested), wilson],
          [clopperPearson(cases, tested, 0.95), exact],
        ] as const) {
          expect(Math.abs(100 * ours.low - theirs[0]), of).toBeLessThanOrEqual(0.0051);
          expect(Math.abs(100 * ours.high - theirs[1]), of).toBeLessThanOrEqual(0.0051);
        }
      }
    });

    it('has the percentages that were printed, rounded or cut as they were; or it is known that its print is not its counts', () => {
      for (const { of, cases, tested, printed, fits } of rows) {
        if (printed === null) continue;
        const decimals = printed.split('.')[1]?.length ?? 0;
        const scale = 10 ** decimals;
        const exact = (100 * cases * scale) / tested;
        const made = {
          rounded: Math.round(exact),
          cut: Math.floor(exact),
          'half down': Math.ceil(exact - 0.5),
        };
        const shown = Math.round(Number(printed) * scale);
        if (fits === 'nothing') for (const way of Object.values(made)) expect(way, of).not.toBe(shown);
        else expect(made[fits], of).toBe(shown);
      }
    });
  },
);
