import { describe, expect, it } from 'vitest';
import type { ClusteringLine, SpeedLine } from '@/db/repositories/analysis-overview';
import { analysisChanges } from '@/lib/jobs/analysis-changes';

// All numbers are invented.
const map = (over: Partial<ClusteringLine> = {}): ClusteringLine => ({
  ...{ species: 'KCHSC', group: 27, period: { first: 2022, last: 2024 }, design: null, grain: 'area' },
  ...{ verdict: 'lie together', where: ['31109', '31025'], sentence: '', p: 0.01 },
  ...over,
});
const speed = (over: Partial<SpeedLine> = {}): SpeedLine => ({
  ...{ species: 'KCHSC', group: 27, design: null, speed: 40, low: 34, high: 46, sentence: '' },
  ...{ nearness: 'near', nearnessSentence: '', trendSentence: '' },
  ...over,
});
const changes = (before: [ClusteringLine, SpeedLine], now: [ClusteringLine, SpeedLine]) =>
  analysisChanges({ maps: [before[0]], speeds: [before[1]] }, { maps: [now[0]], speeds: [now[1]] });

describe('two analyses', () => {
  it('that say the same differ in nothing', () => {
    expect(changes([map(), speed()], [map(), speed()])).toEqual({ verdicts: [], clusters: [], speeds: [] });
  });

  it('differ by a verdict, told with the one before', () => {
    const { verdicts, clusters } = changes(
      [map({ verdict: 'no sign', where: [] }), speed()],
      [map(), speed()],
    );
    expect(verdicts).toMatchObject([{ before: 'no sign', joined: ['31109', '31025'], left: [] }]);
    expect(clusters).toEqual([]);
  });

  it('differ by the places of a cluster that stands in both', () => {
    const { clusters } = changes([map(), speed()], [map({ where: ['31025', '31055'] }), speed()]);
    expect(clusters).toMatchObject([{ joined: ['31055'], left: ['31109'] }]);
  });

  it('differ by a map that was not there', () => {
    const other = map({ period: { first: 2019, last: 2021 } });
    expect(changes([other, speed()], [map(), speed()]).verdicts).toMatchObject([{ before: null }]);
  });

  it.each([
    [{ speed: null, low: null, high: null }, {}, 1],
    [{}, { speed: null, low: null, high: null }, 1],
    [{}, { speed: 47, low: 40, high: 55 }, 1],
    [{}, { speed: 45, low: 40, high: 50 }, 0],
    [{ speed: null, low: null, high: null }, { speed: null, low: null, high: null }, 0],
  ])('from speed %j to %j: %i differences', (was, is, told) => {
    expect(changes([map(), speed(was)], [map(), speed(is)]).speeds).toHaveLength(told);
  });
});
