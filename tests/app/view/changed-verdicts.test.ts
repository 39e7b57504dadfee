import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedVerdicts } from '@/app/view/changed-verdicts';
import type { Clustering, Finding, MatchedChange, SpeedOfSpread, Trend } from '@/lib/findings/types';
import { inventedRelease } from '../invented-release';

// Findings of the invented release, and such as are invented here.
const { findings } = inventedRelease().draft;
const of = <Kind extends Finding['kind']>(kind: Kind) =>
  findings.find((one): one is Extract<Finding, { kind: Kind }> => one.kind === kind)!;
const trend = (over: Partial<Trend>): Trend => ({ ...of('trend'), ...over });
const said = (before: readonly Finding[], now: readonly Finding[]) =>
  changedVerdicts(before, now).map(({ was, is }) => `${was} → ${is}`);

describe('what findings say otherwise than before', () => {
  it('is nothing between a release and itself, in whatever order', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...findings], { minLength: findings.length }), (shuffled) => {
        expect(changedVerdicts(findings, shuffled)).toEqual([]);
      }),
      { numRuns: 20 },
    );
  });

  it('of a trend is told by its interval, not by its number', () => {
    const flat = trend({ oddsRatio: 1.1, low: 0.9, high: 1.4 });
    const rises = trend({ oddsRatio: 1.1, low: 1.01, high: 1.2 });
    const falls = trend({ oddsRatio: 0.8, low: 0.7, high: 0.99 });
    const untold = trend({ oddsRatio: null, low: null, high: null });
    expect(said([flat], [rises])).toEqual(['no clear change → rise']);
    expect(said([rises], [falls])).toEqual(['rise → fall']);
    expect(said([falls], [untold])).toEqual(['fall → not told']);
    expect(said([flat], [trend({ oddsRatio: 1.3, low: 0.7, high: 2 })])).toEqual([]);
  });

  it('of clustering is told for each window by itself', () => {
    const early: Clustering = {
      ...of('clustering'),
      verdict: 'no sign',
      period: { first: 2019, last: 2021 },
    };
    const late: Clustering = { ...early, verdict: 'lie together', period: { first: 2022, last: 2024 } };
    expect(said([early], [early, late])).toEqual([]);
    expect(said([early, { ...late, verdict: 'no sign' }], [early, late])).toEqual(['no sign → lie together']);
  });

  it('of a speed is whether one is told, not how fast', () => {
    const told: SpeedOfSpread = { ...of('speed'), speed: 20, low: 10, high: 30 };
    expect(said([told], [{ ...told, speed: 25 }])).toEqual([]);
    expect(said([told], [{ ...told, speed: null }])).toEqual(['told → not told']);
  });

  it('is not told of a question that only one of them asked, of another pair, or of a finding without a verdict', () => {
    const rises = trend({ low: 1.1, high: 2 });
    const falls = trend({ low: 0.5, high: 0.9 });
    const change: MatchedChange = { ...of('matched change'), low: 1.2, high: 3 };
    expect(said([], [rises])).toEqual([]);
    expect(said([rises], [])).toEqual([]);
    expect(said([rises], [{ ...falls, group: rises.group + 1 }])).toEqual([]);
    expect(said([change], [{ ...change, low: 0.2, high: 0.9 }])).toEqual([]);
  });
});
