import { describe, expect, it } from 'vitest';
import { polygonContains } from '@/lib/geography/polygon-contains';
import { daysLater, spreadsheetSerial } from '@/scripts/scenario/dates';
import { kmBetween } from '@/scripts/scenario/distance';
import { faultKinds } from '@/scripts/scenario/faults';
import { PARAMETERS } from '@/scripts/scenario/parameters';
import { DEMO_DAY, scenarioRegion } from '@/scripts/scenario/sizes';
import { fourErrors, populationsOf, readScenario } from './read-scenario';

const region = scenarioRegion('default');
const countyOf = new Map(region.counties.map((county) => [county.fips, county]));
const { rows, counts } = readScenario('default', 1);
const ordinary = rows.filter(({ fault }) => fault === null);
const populations = populationsOf(rows);

describe('ordinary records are such as intake accepts as of the demo’s day', () => {
  it('state and county are spelled as in the outlines, coordinates lie in that county', () => {
    for (const { cells, truth } of ordinary) {
      const county = countyOf.get(truth.county)!;
      expect([cells.State, cells.County]).toEqual([county.state, county.name]);
      expect(cells.Lat === '').toBe(cells.Long === '');
      if (cells.Lat !== '') {
        expect(
          polygonContains(county.geometry, Number(cells.Long), Number(cells.Lat)),
          cells['Sample #'],
        ).toBe(true);
      }
    }
  });

  it('counts are whole plants: ten or more treated, none more alive than that', () => {
    for (const { cells } of ordinary) {
      expect(cells['Plants treated']).toMatch(/^\d+$/);
      expect(cells['Plants alive']).toMatch(/^\d+$/);
      const treated = Number(cells['Plants treated']);
      expect(treated).toBeGreaterThanOrEqual(cells.Assay === 'molecular' ? 10 : 20);
      expect(treated).toBeLessThanOrEqual(60);
      expect(Number(cells['Plants alive'])).toBeLessThanOrEqual(treated);
    }
  });

  it('the call follows the truth: 20 % or more alive exactly where resistant, at one label rate', () => {
    for (const { cells, truth } of ordinary) {
      if (cells.Rate !== '1x' && cells.Rate !== 'label') continue;
      const share = Number(cells['Plants alive']) / Number(cells['Plants treated']);
      expect(share >= 0.2, cells['Sample #']).toBe(truth.resistant);
      expect(truth.result).toBe(share >= 0.2 ? 'resistant' : share > 0 ? 'some survivors' : 'susceptible');
    }
  });

  it('seed is collected in the season and received afterwards, before the demo’s day', () => {
    for (const { cells, truth } of ordinary) {
      expect(Number(cells['Date collected'].slice(0, 4))).toBe(truth.season);
      expect(cells['Date collected'] >= `${truth.season}-07-15`).toBe(true);
      expect(cells['Date collected'] <= `${truth.season}-11-05`).toBe(true);
      expect(cells['Date collected'] < cells["Date rec'd"]).toBe(true);
      expect(cells["Date rec'd"] < DEMO_DAY).toBe(true);
    }
  });

  it('rates are label multiples, checks passed, words are the project’s own, and each record says simulated', () => {
    for (const { cells } of ordinary) {
      expect(['1x', 'label', '0.5x', '2x']).toContain(cells.Rate);
      expect(cells['S check']).toBe('Y');
      expect(['submitted', 'random', 'follow-up']).toContain(cells.Design);
      expect(['whole plant', 'soil-applied', 'molecular']).toContain(cells.Assay);
      expect(['wheat', 'sorghum', 'corn', 'soybean', 'sunflower']).toContain(cells.Crop);
      expect(cells.Funder).toMatch(/ board \(simulated\)$/);
      expect(cells.Remarks).toMatch(/^simulated/);
    }
  });

  it('no population is screened twice with one active and rate', () => {
    const seen = new Set<string>();
    for (const { cells, fault } of rows) {
      if (fault?.kind === 'entered twice') continue;
      const key = [cells['Sample #'], cells['Herbicide / Group'], cells.Rate].join('|');
      if (fault === null) expect(seen.has(key), key).toBe(false);
      seen.add(key);
    }
  });

  it('no two populations of one operation, species and season lie within 150 m of each other', () => {
    const placed = new Map<string, { lon: number; lat: number }[]>();
    for (const { cells, truth, fault } of populations) {
      if (cells.Lat === '' || fault !== null) continue;
      const key = `${cells['Grower/Operation']}|${truth.species}|${truth.season}`;
      const point = { lon: Number(cells.Long), lat: Number(cells.Lat) };
      for (const other of placed.get(key) ?? []) expect(kmBetween(other, point)).toBeGreaterThan(0.15);
      placed.set(key, [...(placed.get(key) ?? []), point]);
    }
  });
});

describe('mixture of what is sent', () => {
  it('a tenth of the records is molecular (groups 2, 9, 14 only), some are soil-applied (5, 14 only)', () => {
    const of = (assay: string) => rows.filter(({ truth }) => truth.assay === assay);
    expect(of('molecular').length / rows.length).toBeCloseTo(0.1, 1.7);
    expect(new Set(of('molecular').map(({ truth }) => truth.group))).toEqual(new Set([2, 9, 14]));
    expect(new Set(of('soil-applied').map(({ truth }) => truth.group))).toEqual(new Set([5, 14]));
  });

  it('a tenth comes from random surveys, a few are follow-up, the rest was submitted', () => {
    const share = (design: string) =>
      populations.filter(({ cells }) => cells.Design === design).length / populations.length;
    expect(Math.abs(share('random') - 0.1)).toBeLessThan(fourErrors(0.1, populations.length));
    expect(share('follow-up')).toBeGreaterThan(0.01);
    expect(share('follow-up')).toBeLessThan(0.06);
    expect(share('submitted') + share('random') + share('follow-up')).toBeCloseTo(1, 12);
  });

  it('most senders agree to sharing; some do not, some leave it blank', () => {
    const share = (consent: string) =>
      populations.filter(({ cells }) => cells['OK to share'] === consent).length / populations.length;
    expect(Math.abs(share('N') - PARAMETERS.consentNo)).toBeLessThan(fourErrors(0.06, populations.length));
    expect(Math.abs(share('') - PARAMETERS.consentBlank)).toBeLessThan(fourErrors(0.04, populations.length));
  });
});

describe('faults', () => {
  it('2 % of the records carry one, within binomial error, and every kind occurs somewhere in five seeds', () => {
    const faulty = rows.filter(({ fault }) => fault !== null).length;
    // Seed that is not viable alters all records of its population at once: half as much again.
    expect(Math.abs(faulty / rows.length - 0.02)).toBeLessThan(1.5 * fourErrors(0.02, rows.length));
    const kinds = new Set<string>();
    for (const seed of [1, 2, 3, 4, 5]) {
      for (const { fault } of readScenario('default', seed).rows) if (fault) kinds.add(fault.kind);
    }
    expect([...kinds].sort()).toEqual(faultKinds().sort());
  });

  it('each alters what it says, and the truth keeps what stood there', () => {
    for (const { cells, fault, truth } of rows) {
      if (!fault) continue;
      const altered = Object.entries(fault.was).filter(
        ([column, before]) => cells[column as keyof typeof cells] !== before,
      );
      expect(altered.length > 0, fault.kind).toBe(fault.kind !== 'entered twice');
      expect(truth.result === null).toBe(truth.outcome !== 'accepted');
    }
    expect(Object.values(counts.faults).reduce((a, b) => a + b, 0)).toBe(
      rows.filter(({ fault }) => fault !== null).length,
    );
  });

  it('a record entered twice follows its original and equals it', () => {
    const twice = rows.flatMap((row, i) => (row.fault?.kind === 'entered twice' ? [i] : []));
    expect(twice.length).toBeGreaterThan(0);
    for (const i of twice) expect(rows[i]!.cells).toEqual(rows[i - 1]!.cells);
  });

  it('seed that is not viable leaves all records of its population without a plant', () => {
    const dead = new Set(
      rows.flatMap(({ cells, fault }) => (fault?.kind === 'not viable' ? [cells['Sample #']] : [])),
    );
    expect(dead.size).toBeGreaterThan(10);
    for (const { cells, truth } of rows) {
      if (!dead.has(cells['Sample #'])) continue;
      expect([cells['Plants treated'], cells['Plants alive'], truth.outcome]).toEqual(['0', '0', 'refused']);
    }
  });
});

describe('days', () => {
  it('the spreadsheet number of 14 September 2026 is 46279', () => {
    // The sample sheet’s own pair of a day and its number; 25569 = 1 January 1970 is common practice.
    expect(spreadsheetSerial('2026-09-14')).toBe(46279);
    expect(spreadsheetSerial('1970-01-01')).toBe(25569);
    expect(daysLater('2024-02-27', 3)).toBe('2024-03-01');
  });
});
