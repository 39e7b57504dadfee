import { describe, expect, it } from 'vitest';
import { regionPlace, statePlaces } from '@/app/view/places';
import { indexCells, releasedOver, statusOver, statusOverAll } from '@/app/view/released';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { inventedRegion } from '../invented-release';

// Invented cells.
const region = inventedRegion();
const place = regionPlace(region);
const cell = (first: number, last: number, over: Partial<ReleasedCell> = {}): ReleasedCell => ({
  placeKind: 'region',
  place: 'region',
  period: { first, last },
  species: 'KCHSC',
  group: 9,
  assay: 'whole plant',
  design: null,
  status: 'published',
  counts: { tested: 10, resistant: 4, someSurvivors: 0 },
  receipt: null,
  actives: [],
  unfinished: false,
  ...over,
});
const WITHHELD = { status: 'withheld', counts: null } as const;
const CLEAN = { counts: { tested: 9, resistant: 0, someSurvivors: 0 } };
const over = (cells: ReleasedCell[]) => releasedOver(indexCells(cells), place, { first: 2022, last: 2024 });

describe('what is released of a place over a window', () => {
  it('is its own cell where there is one, even beside seasons that say more', () => {
    expect(over([cell(2022, 2024, WITHHELD), cell(2022, 2022), cell(2023, 2023)])).toEqual({
      kind: 'withheld',
    });
  });

  it('else is the sum of its seasons, and withheld as soon as one of them is', () => {
    expect(over([cell(2022, 2022), cell(2024, 2024), cell(2021, 2021)])).toEqual({
      kind: 'published',
      tested: 20,
      resistant: 8,
    });
    expect(over([cell(2022, 2022), cell(2024, 2024, WITHHELD)])).toEqual({ kind: 'withheld' });
    expect(over([])).toEqual({ kind: 'not screened' });
  });

  it('counts whole-plant cells of all designs together and no others', () => {
    expect(over([cell(2022, 2024, { assay: 'molecular' }), cell(2022, 2024, { design: 'random' })])).toEqual({
      kind: 'not screened',
    });
  });

  it('has one look for each kind, and the same one for every withheld place', () => {
    expect(statusOver(over([cell(2022, 2024)]))).toBe('confirmed');
    expect(statusOver(over([cell(2022, 2024, CLEAN)]))).toBe('none confirmed');
    expect(statusOver(over([cell(2022, 2024, WITHHELD)]))).toBe('no public information');
    expect(statusOver(over([]))).toBe('not screened');
  });
});

describe('the status over all closed seasons', () => {
  const status = (cells: ReleasedCell[]) => statusOverAll([], indexCells(cells), place);

  it('is what the release says of the place', () => {
    const [state] = statePlaces(region);
    const said = {
      placeKind: 'state' as const,
      place: state!.key,
      species: 'KCHSC',
      group: 9,
      status: 'none confirmed' as const,
    };
    expect(statusOverAll([said], indexCells([]), state!)).toBe('none confirmed');
  });

  it('else is what published cells prove: one find confirms, none needs every cell, and an open season counts for nothing', () => {
    expect(status([cell(2022, 2024), cell(2019, 2021, WITHHELD)])).toBe('confirmed');
    expect(status([cell(2022, 2024, CLEAN), cell(2019, 2021, CLEAN)])).toBe('none confirmed');
    expect(status([cell(2022, 2024, CLEAN), cell(2019, 2021, WITHHELD)])).toBe('no public information');
    expect(status([cell(2025, 2025, { unfinished: true })])).toBe('not screened');
  });
});
