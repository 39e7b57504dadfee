import { describe, expect, it } from 'vitest';
import { speechIn } from '@/app/messages/texts';
import { findClustering } from '@/lib/findings/find-clustering';
import { findMatchedChange } from '@/lib/findings/find-matched-change';
import { findTrend } from '@/lib/findings/find-trend';
import { regionNames } from '@/lib/findings/names';
import { speedSentence } from '@/lib/findings/spread/speed-sentence';
import type { Finding, SpeedOfSpread } from '@/lib/findings/types';
import { commonNameOf } from '@/lib/vocabulary/species';
import { inventedRegion, inventedRelease } from './invented-release';

// Counts and findings are invented; sentences in English are those of the findings.
const region = inventedRegion();
const { say } = speechIn('es').texts;
const ENGLISH = /\b(the|of|and|were|was|that|with|which|this|from|screened|counties|nobody|would|season)\b/i;

/** All numbers of a sentence, in order of size: a translation says the same ones. */
const numbersIn = (words: string) =>
  [...words.replaceAll('\u00a0', ' ').matchAll(/\d[\d,]*(?:\.\d+)?/g)]
    .map(([number]) => Number(number.replaceAll(',', '')))
    .sort((a, b) => a - b);

function spanish(finding: Finding): string {
  if (finding.kind === 'first detection') return say.firstDetectionWords(finding, region);
  const { words, asWritten } = say.findingWords(finding, region);
  expect(asWritten).toBeNull();
  return words;
}

function expectSame(finding: Finding) {
  const words = spanish(finding);
  expect(words).not.toMatch(ENGLISH);
  const english =
    finding.kind === 'first detection' || !finding.reason || finding.sentence.includes(finding.reason)
      ? finding.sentence
      : `${finding.sentence} ${finding.reason}`;
  expect(numbersIn(words), `${english}\n${words}`).toEqual(numbersIn(english));
}

describe('findings in Spanish', () => {
  const { findings } = inventedRelease().draft;

  it('say every number of the English sentence, and no English, for each finding of a release', () => {
    expect(new Set(findings.map(({ kind }) => kind)).size).toBe(5);
    for (const finding of findings) expectSame(finding);
  });

  it('say why a change or a trend cannot be told, for each reason', () => {
    const names = regionNames(region, commonNameOf);
    const [one, two] = region.districts.map(({ code }) => code);
    const shared = { species: 'KCHSC', group: 9, grain: 'district' as const, names };
    const cell = (place: string, season: number, resistant: number, tested: number) => ({
      ...{ species: 'KCHSC', group: 9, placeKind: 'district' as const, place, resistant, tested },
      period: { first: season, last: season },
    });
    const told = [
      [],
      [cell(one!, 2023, 0, 9), cell(one!, 2024, 0, 8)],
      [cell(one!, 2023, 9, 9), cell(one!, 2024, 8, 8)],
      [cell(one!, 2023, 0, 9), cell(one!, 2024, 3, 8)],
      [cell(one!, 2023, 4, 9), cell(one!, 2024, 0, 8)],
      [cell(one!, 2023, 0, 9), cell(one!, 2024, 0, 8), cell(two!, 2023, 5, 5), cell(two!, 2024, 6, 6)],
    ].flatMap((observations) => [
      findMatchedChange({ ...shared, observations, from: 2023, to: 2024 }),
      findTrend({ ...shared, observations, seasons: [2023, 2024] }),
    ]);
    expect(new Set(told.map(({ reason }) => reason)).size).toBeGreaterThan(6);
    for (const finding of told) expectSame(finding);
  });

  it('say why a map tells nothing, for each reason', () => {
    const names = regionNames(region, commonNameOf);
    const counties = region.counties.slice(0, 60).map(({ fips }) => fips);
    const neighbours = new Map(
      counties.map((fips, i) => [fips, counties.filter((_, j) => Math.abs(i - j) === 1)]),
    );
    const map = (places: number, resistant: number) =>
      findClustering({
        ...{ species: 'KCHSC', group: 9, period: { first: 2022, last: 2024 }, seed: 1, permutations: 99 },
        ...{ neighbours, names, grain: 'area' as const },
        observations: counties.slice(0, places).map((place) => ({
          ...{ species: 'KCHSC', group: 9, placeKind: 'county' as const, place, tested: 6, resistant },
          period: { first: 2022, last: 2024 },
        })),
      });
    const told = [map(1, 0), map(7, 1), map(30, 0), map(30, 3)];
    expect(new Set(told.map(({ reason }) => reason)).size).toBe(4);
    for (const finding of told) expectSame(finding);
  });

  it('say a speed with its beginnings, its other model, its sides and what lies too far ahead', () => {
    const [a, b, c] = region.counties.map(({ fips }) => fips) as [string, string, string];
    const base: Omit<SpeedOfSpread, 'sentence'> = {
      ...{ kind: 'speed', species: 'KCHSC', group: 27, from: 2014, to: 2024, grain: 'county' },
      ...{
        speed: 41.2,
        low: 33.6,
        high: 52.4,
        model: 'arrival',
        otherSpeed: 61.7,
        newFinds: 40,
        reason: null,
      },
      origins: [
        { lon: -98, lat: 39, place: a, kilometres: 12, since: 2014 },
        { lon: -101, lat: 41, place: b, kilometres: 130, since: 2016 },
      ],
      direction: { towards: 44, fastest: 67, slowest: 29, p: 0.0123 },
      jumps: [{ place: c, season: 2019, nearest: a, kilometres: 240.2 }],
    };
    const { place } = regionNames(region, commonNameOf);
    for (const found of [
      base,
      { ...base, origins: [base.origins[0]!], otherSpeed: -3, direction: null, jumps: [] },
    ])
      expectSame({ ...found, sentence: speedSentence(found, 'kochia', (key) => place('county', key)) });
  });

  it.each([
    'A speed needs three seasons with known counts; there are 2.',
    'Places found new after a clean record: 3. A speed needs 4.',
    'New finds do not lie nearer to earlier ones than what was tested anyway.',
    'No front could be fitted to the counts.',
    'The finds are explained as well without anything that moves outwards.',
    'Finds lie together in a way that no front from one place or a few explains.',
    'The time that a front needs for its way may be nothing: no speed can be told.',
  ])('say why no speed can be told: %s', (reason) => {
    const found: SpeedOfSpread = {
      ...{ kind: 'speed', species: 'KCHSC', group: 27, from: 2014, to: 2024, grain: 'district' },
      ...{ speed: null, low: null, high: null, model: null, otherSpeed: null, newFinds: 0, reason },
      ...{ origins: [], direction: null, jumps: [], sentence: '' },
    };
    const sentence = speedSentence(found, 'kochia', String);
    expectSame({ ...found, sentence });
  });

  it('leave a reason that they do not know as the release has it, apart from their own words', () => {
    const [speed] = findings.filter((one): one is SpeedOfSpread => one.kind === 'speed');
    const odd = { ...speed!, speed: null, reason: 'A reason of a release to come.' };
    const { words, asWritten } = say.findingWords(odd, region);
    expect(asWritten).toBe('A reason of a release to come.');
    expect(words).not.toMatch(ENGLISH);
  });

  it('name an area in Spanish', () => {
    const { texts } = speechIn('es');
    expect(texts.jointName(['Ness', 'Lane', 'Gove'])).toBe('condados de Ness, Lane y Gove');
    expect(texts.jointName(['Ness', 'Lane', 'Gove', 'Trego', 'Ellis'])).toBe(
      'condados de Ness, Lane, Gove y 2 más',
    );
  });
});
