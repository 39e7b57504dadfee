import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseEncoding } from '@/app/choose-encoding';

const BOTH = ['br', 'gzip'] as const;

describe('the encoding of an answer', () => {
  // What a header means: RFC 9110, sections 12.4.2 and 12.5.3, its examples among them.
  it.each([
    [undefined, null],
    ['', null],
    ['gzip, deflate, br, zstd', 'br'],
    ['compress, gzip', 'gzip'],
    ['*', 'br'],
    ['compress;q=0.5, gzip;q=1.0', 'gzip'],
    ['gzip;q=1.0, identity; q=0.5, *;q=0', 'gzip'],
    ['br;q=0.5, gzip;q=0.8', 'gzip'],
    ['br;q=0.001', 'br'],
    ['br;q=0, *', 'gzip'],
    ['identity, br;q=0.5', null],
    ['identity;q=0.5, br;q=0.5', 'br'],
    ['br;q=0', null],
    ['br;q=0.000, gzip;q=0', null],
    ['identity;q=0, deflate', null],
    ['BR ; Q=1', 'br'],
    ['br;q=2, gzip;q=0.1', 'gzip'],
    ['bread, gzipped', null],
  ])('of Accept-Encoding %j is %j', (header, expected) => {
    expect(chooseEncoding(header, BOTH)).toBe(expected);
  });

  it('is one that is at hand, and never one that the client refuses', () => {
    const coding = fc.constantFrom('br', 'gzip', 'identity', 'deflate', '*');
    const named = fc.uniqueArray(fc.tuple(coding, fc.integer({ min: 0, max: 1000 })), {
      selector: ([name]) => name,
    });
    fc.assert(
      fc.property(named, fc.subarray([...BOTH]), (parts, available) => {
        const chosen = chooseEncoding(
          parts.map(([name, weight]) => `${name};q=${weight / 1000}`).join(','),
          available,
        );
        if (chosen === null) return;
        expect(available).toContain(chosen);
        const weights = new Map<string, number>(parts);
        const weightOf = (name: string) => weights.get(name) ?? weights.get('*') ?? 0;
        expect(weightOf(chosen)).toBeGreaterThan(0);
        for (const other of [...available, 'identity'])
          expect(weightOf(chosen)).toBeGreaterThanOrEqual(weightOf(other));
      }),
    );
  });
});
