import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { aggregate } from '@/lib/cube/aggregate';
import { isTested } from '@/lib/cube/facts';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import { beside, type Consequence, consequencesOf } from '@/lib/jobs/consequences';
import { gateOnly } from '@/lib/jobs/gate-only';
import { inAll, publishedShares } from '@/lib/jobs/published-shares';
import { consequenceTable } from '@/scripts/support/consequence-table';
import { readPolicyFile } from '@/scripts/support/policy-file';
import { scenarioFacts } from '@/scripts/support/scenario-facts';

// The small simulated programme: 66 counties, 120 populations a season.
const { facts: all, region, closedSeasons } = scenarioFacts('small', 1);
const facts = all.filter(({ publicShare }) => publicShare);
const ground = { facts, region, closedSeasons };
const [standing, stricter] = beside(DEFAULT_POLICY) as [Proposal, Proposal, Proposal];
type Proposal = ReturnType<typeof beside>[number];
let found: Consequence[];
beforeAll(async () => {
  found = await consequencesOf(beside(DEFAULT_POLICY), ground);
}, 60_000);
const at = (consequence: Consequence, level: string) => consequence.all.find((line) => line.level === level)!;

describe('the consequences of a policy', () => {
  it('count every screened cell once: published, withheld or left out', () => {
    for (const { all: levels, pairs } of found)
      for (const line of [...levels, ...pairs.flatMap((pair) => pair.levels)]) {
        expect(line.published + line.withheld + line.leftOut).toBe(line.cells);
        expect(line.inside).toBeLessThanOrEqual(line.populations);
        expect(line.primary).toBeLessThanOrEqual(line.withheld);
      }
  });

  it('are counted from all screened populations of whole plants in closed seasons', () => {
    const own = facts.filter(
      (fact) => fact.assay === 'whole plant' && isTested(fact) && closedSeasons.includes(fact.season),
    );
    expect(at(found[0]!, 'state × season').populations).toBe(own.length);
    const seasons = aggregate(own, {
      placeKind: 'state',
      placeOf: () => 'SD',
      periodOf: (season) => ({ first: season, last: season }),
      byDesign: false,
    });
    expect(at(found[0]!, 'state × season').cells).toBe(seasons.length);
    expect(at(found[0]!, 'state × season').primary).toBe(
      seasons.filter((cell) => isPrimary(cell, DEFAULT_POLICY)).length,
    );
  });

  it('of a stricter policy are fewer published populations at every grain', () => {
    for (const [i, line] of found[1]!.all.entries())
      expect(line.inside, line.level).toBeLessThanOrEqual(found[0]!.all[i]!.inside);
    expect(found[1]!.all[0]!.inside).toBeLessThan(found[0]!.all[0]!.inside);
  });

  it('are said by pair as well, and the pairs add up to all', async () => {
    const pairs = publishedShares(await gateOnly({ ...ground, policy: standing.policy }));
    expect(inAll(pairs)).toEqual(found[0]!.all);
    const table = consequenceTable(found);
    for (const { group } of pairs) expect(table).toContain(`× group ${group}`);
    for (const name of ['standing', 'stricter', 'looser']) expect(table).toContain(`${name}, at least`);
    // Columns stand apart, each under its head.
    const [head, first] = table.split('\n').slice(1, 3) as [string, string];
    expect(head.trim().split(/ {2,}/)).toEqual([
      ...['table', 'cells', 'published', 'withheld', 'to protect others', 'left out', 'populations'],
      'inside published numbers',
    ]);
    expect(first.trim().split(/ {2,}/)).toHaveLength(8);
  });

  it('are nothing at all where a policy asks for more than there is, and that is said', async () => {
    const policy = { ...stricter.policy, minimumTested: 100_000 };
    const [none] = await consequencesOf([{ name: 'proposed', policy }], ground);
    expect(none!.warning).toContain('withholds everything');
    expect(consequenceTable([none!])).toContain('withholds everything');
  });

  it('of a window longer than the closed seasons are said to show nothing below states', async () => {
    const policy = { ...DEFAULT_POLICY, windowLength: 20 };
    const [none] = await consequencesOf([{ name: 'proposed', policy }], ground);
    expect(none!.warning).toContain('No window of 20 seasons');
  });

  it('count windows from the first season with results, as a release does, closed or not', async () => {
    const policy = { ...DEFAULT_POLICY, windowLength: 2 };
    const closed = closedSeasons.slice(1);
    const windowsFrom = async (firstSeason?: number) =>
      (await gateOnly({ ...ground, closedSeasons: closed, policy, firstSeason })).cube.windows.map(
        ({ first }) => first,
      );
    const [first] = closedSeasons as [number];
    expect(await windowsFrom(first)).toEqual([first + 2, first + 4]);
    expect(await windowsFrom()).toEqual([first + 1, first + 3]);
  });

  it('are said to withhold nothing where every cell passes', async () => {
    const county = facts[0]!.county;
    // Invented: twelve operations send two populations each, half of them resistant, from one county in each season.
    const many = closedSeasons.flatMap((season) =>
      Array.from({ length: 24 }, (_, i) => ({
        ...facts[0]!,
        ...{
          county,
          season,
          population: `${season}-${i}`,
          operation: `farm ${i % 12}`,
          assay: 'whole plant' as const,
        },
        result: i % 2 ? ('resistant' as const) : ('susceptible' as const),
      })),
    );
    const [whole] = await consequencesOf([standing], { ...ground, facts: many });
    expect(whole!.warning).toContain('withholds nothing');
  });
});

describe('a policy file', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fencerow-policy-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const file = (text: string) => {
    const path = join(folder, 'policy.json');
    writeFileSync(path, text);
    return path;
  };

  it('changes what it names, and leaves the rest as it stands', () => {
    expect(readPolicyFile(file('{"minimumTested": 10}'), DEFAULT_POLICY)).toEqual({
      ...DEFAULT_POLICY,
      version: 'as proposed',
      minimumTested: 10,
    });
  });

  it.each([
    ['{"minimumTested": 4}', 'minimumTested is 4; it must be a whole number of at least 5'],
    ['{"minimumTested": "5"}', 'minimumTested: is no number'],
    ['{"minimumTested": 5.5}', 'minimumTested: is no whole number'],
    ['{"dominanceShare": 60}', 'dominanceShare is 60; it must be a share above 0 and up to 1'],
    ['{"windowLength": 0}', 'windowLength is 0'],
    ['{"version": " "}', 'version is " "'],
    ['{"smallest": 5}', 'no policy has “smallest”'],
    ['[5]', 'is no policy (an object of fields)'],
    ['{', 'is no JSON'],
  ])('%s is refused by the name of the field', (text, words) => {
    expect(() => readPolicyFile(file(text), DEFAULT_POLICY)).toThrow(words);
  });

  it('that is not there is named', () => {
    expect(() => readPolicyFile(join(folder, 'none.json'), DEFAULT_POLICY)).toThrow('There is no file');
  });

  it('never makes a policy looser than the defaults in what protects a sender', () => {
    const counts = ['minimumTested', 'minimumOperations', 'unanimousOperations'] as const;
    fc.assert(
      fc.property(fc.constantFrom(...counts), fc.integer({ min: -5, max: 20 }), (field, value) => {
        const read = () => readPolicyFile(file(JSON.stringify({ [field]: value })), DEFAULT_POLICY);
        if (value < DEFAULT_POLICY[field]) expect(read).toThrow(field);
        else expect(read()[field]).toBe(value);
      }),
    );
  });
});
