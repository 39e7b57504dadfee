import { describe, expect, it } from 'vitest';
import type { Fact } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { ladder } from '@/lib/disclosure/ladder';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { createCellFinder } from '@/lib/release/cell-finder';
import { ladderCells } from '@/lib/release/ladder-cells';
import { gateInput, inventFacts, inventTree } from '../disclosure/support/invented';
import { Series, sample, shownText } from './support/series';

// Invented regions and results throughout.
const TREE = inventTree({ states: 2, districts: 2, counties: 3 });
const FIRST = 2015;
const CLOSED = 2020;
const PLAN = { seed: 4, firstSeason: FIRST, seasons: 6, mean: 12, share: 0.35 };
const FACTS = inventFacts(TREE, PLAN);

async function started(facts: readonly Fact[] = FACTS) {
  const series = new Series(TREE, FIRST);
  await series.release({ facts, closed: CLOSED });
  return series;
}

/** Late samples of one county and season, each of a farm of its own. */
function late(n: number, over: Partial<Fact> = {}): Fact[] {
  return Array.from({ length: n }, (_, i) =>
    sample(`late ${i}`, { season: 2016, result: i % 3 === 0 ? 'resistant' : 'susceptible', ...over }),
  );
}

const testedIn = (made: Series['made'][number], place: string, first: number, last: number) =>
  made.cube.cells.find(
    (cell) =>
      cell.place === place &&
      cell.period.first === first &&
      cell.period.last === last &&
      !cell.design &&
      cell.assay === 'whole plant',
  )?.counts?.tested;

describe('a release after another', () => {
  it('is the same when nothing came', async () => {
    const series = await started();
    const again = await series.release({ facts: FACTS, closed: CLOSED });
    expect(shownText(again)).toEqual(shownText(series.made[0]!));
    expect(again.revision.waiting).toEqual([]);
  });

  it.each([
    ['one late sample', late(1)],
    ['four late samples', late(4)],
    ['nine late samples of two farms', late(9).map((fact, i) => ({ ...fact, operation: `farm ${i % 2}` }))],
  ])('changes no public number by %s alone (P5)', async (_name, samples) => {
    const series = await started();
    const next = await series.release({ facts: [...FACTS, ...samples], closed: CLOSED });
    expect(shownText(next)).toEqual(shownText(series.made[0]!));
    expect(next.revision.waiting).toMatchObject([
      { county: '10000', season: 2016, entering: samples.length },
    ]);
  });

  it('changes no public number by one correction, one withdrawn consent, or one sample that was in another county', async () => {
    const shared = FACTS.findIndex(
      ({ publicShare, season, assay, result }) =>
        publicShare && season === 2016 && assay === 'whole plant' && result === 'susceptible',
    );
    const changes: Partial<Fact>[] = [
      { result: 'resistant' },
      { publicShare: false },
      { county: TREE.counties.at(-1)!.fips },
    ];
    for (const change of changes) {
      const series = await started();
      const facts = FACTS.map((fact, i) => (i === shared ? { ...fact, ...change } : fact));
      const next = await series.release({ facts, closed: CLOSED });
      expect(shownText(next)).toEqual(shownText(series.made[0]!));
      expect(next.revision.waiting.length).toBeGreaterThan(0);
    }
  });

  it('lets a batch enter, in every cell that holds it, when one more sample makes it one', async () => {
    const series = await started();
    const waits = await series.release({ facts: [...FACTS, ...late(4)], closed: CLOSED });
    const enters = await series.release({ facts: [...FACTS, ...late(5)], closed: CLOSED });
    expect(enters.revision.waiting).toEqual([]);
    for (const [place, first, last] of [
      ['region', 2016, 2016],
      ['region', 2015, 2017],
      ['S0', 2016, 2016],
      ['S0-0', 2015, 2017],
    ] as const)
      expect(testedIn(enters, place, first, last)! - testedIn(waits, place, first, last)!).toBe(5);
    expect(testedIn(enters, 'S1', 2016, 2016)).toBe(testedIn(waits, 'S1', 2016, 2016));
    expect(enters.audit.breaches).toEqual([]);
  });

  it('takes a batch out again when its senders withdraw their consent', async () => {
    const series = await started([...FACTS, ...late(6)]);
    const withdrawn = late(6).map((fact) => ({ ...fact, publicShare: false }));
    const next = await series.release({ facts: [...FACTS, ...withdrawn], closed: CLOSED });
    expect(next.revision.waiting).toEqual([]);
    expect(testedIn(next, 'region', 2016, 2016)).toBe(testedIn(series.made[0]!, 'region', 2016, 2016)! - 6);
  });

  it('lets a sample wait that alone would differ between the first release and the third', async () => {
    const series = await started();
    const five = late(5);
    await series.release({ facts: [...FACTS, ...five], closed: CLOSED });
    // All five leave and one enters: against the second release six move, against the first it would be one.
    const out = five.map((fact) => ({ ...fact, publicShare: false }));
    const third = await series.release({
      facts: [...FACTS, ...out, sample('sixth', { season: 2016 })],
      closed: CLOSED,
    });
    const difference =
      testedIn(third, 'region', 2016, 2016)! - testedIn(series.made[0]!, 'region', 2016, 2016)!;
    expect([0, 5]).toContain(difference);
    expect(third.revision.waiting.length).toBeGreaterThan(0);
  });

  it('leaves what a season under way showed, until it has grown by a batch', async () => {
    const facts = FACTS.filter(({ season }) => season < CLOSED || season === CLOSED);
    const series = new Series(TREE, FIRST);
    const first = await series.release({ facts, closed: CLOSED - 1 });
    const more = (n: number) => late(n, { season: CLOSED });
    const second = await series.release({ facts: [...facts, ...more(3)], closed: CLOSED - 1 });
    expect(shownText(second)).toEqual(shownText(first));
    const third = await series.release({ facts: [...facts, ...more(6)], closed: CLOSED - 1 });
    expect(testedIn(third, 'region', CLOSED, CLOSED)! - testedIn(first, 'region', CLOSED, CLOSED)!).toBe(6);
    const closed = await series.release({ facts: [...facts, ...more(6)], closed: CLOSED });
    expect(testedIn(closed, 'region', CLOSED, CLOSED)).toBe(testedIn(third, 'region', CLOSED, CLOSED));
    expect(closed.audit.breaches).toEqual([]);
  });
});

describe('a county that is coded otherwise', () => {
  const recoded = {
    counties: TREE.counties.map((county) =>
      county.fips === '10000' ? { ...county, fips: '10099' } : county,
    ),
    districts: TREE.districts.map((district) => ({
      ...district,
      counties: district.counties.map((fips) => (fips === '10000' ? '10099' : fips)),
    })),
  };
  const moved = FACTS.map((fact) => (fact.county === '10000' ? { ...fact, county: '10099' } : fact));

  it('enters under its new code where that is a batch in every cell that it leaves and every one that it enters', async () => {
    const series = await started();
    const made = await series.release({ facts: moved, closed: CLOSED, tree: recoded });
    expect(made.audit.breaches).toEqual([]);
    expect(made.revision.waiting).toEqual([]);
    expect(testedIn(made, '10099', 2015, 2017)).toBe(testedIn(series.made[0]!, '10000', 2015, 2017));
    expect(made.cube.cells.filter(({ place }) => place.includes('10000'))).toEqual([]);
  });

  it('is refused where so few lay in it that the two codings could be subtracted', async () => {
    const few = FACTS.filter(({ county }) => county !== '10000');
    const thin = [...few, ...late(2)];
    const series = await started(thin);
    const elsewhere = {
      counties: TREE.counties.map((county) =>
        county.fips === '10000' ? { ...county, district: 'S0-1' } : county,
      ),
      districts: TREE.districts,
    };
    await expect(series.release({ facts: thin, closed: CLOSED, tree: elsewhere })).rejects.toThrow(
      /coded otherwise/,
    );
  });
});

describe('the cells of a fact', () => {
  it('are those in which the tables count it', () => {
    const input = gateInput(FACTS, TREE, { firstSeason: FIRST, seasons: 5, openSeason: true });
    const { firstSeason, closedSeasons, openSeason, areas } = input;
    const question = { policy: DEFAULT_POLICY, firstSeason, closedSeasons, openSeason };
    const finder = createCellFinder(question, TREE, areas);
    const received = new Map<string, number>();
    for (const fact of FACTS) {
      for (const { cell } of finder(fact))
        received.set(cellKeyText(cell), (received.get(cellKeyText(cell)) ?? 0) + 1);
    }
    const counted = ladderCells(FACTS, ladder(question), TREE, areas);
    expect(new Map([...received].sort())).toEqual(
      new Map(counted.map((cell) => [cellKeyText(cell), cell.received] as const).sort()),
    );
  });
});
