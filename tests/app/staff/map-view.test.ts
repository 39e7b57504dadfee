import { expect, it } from 'vitest';
import { grainsOf, keptApart, mapHref, parseMapView } from '@/app/staff/map/map-view';

const PAIRS = [
  { species: 'KCHSC', group: 27 },
  { species: 'SORHA', group: 2 },
];
const PERIODS = [
  { first: 2022, last: 2024 },
  { first: 2013, last: 2025 },
];
const DISTRICT = { code: 'X', name: 'Invented', state: 'NE', counties: [] };
const GROUPED = { pairs: PAIRS, periods: PERIODS, grains: grainsOf({ districts: [DISTRICT] }) };
const parse = (search: Record<string, string>) => parseMapView(search, GROUPED)!;

it('an address without words shows the first pair and period, all designs, whole plants', () => {
  const view = parse({});
  expect(view).toMatchObject({
    pair: PAIRS[0],
    period: PERIODS[0],
    by: 'county',
    layer: 'share',
    place: 'region',
  });
  expect(keptApart(view)).toEqual(['all designs together', 'whole plant']);
});

it('what is not known is as it usually is', () => {
  const wrong = { pair: 'XXXXX-1', period: '1066-1067', by: 'acre', layer: 'gold', design: 'x', assay: 'y' };
  expect(parse(wrong)).toEqual(parse({}));
  expect(parseMapView({}, { ...GROUPED, pairs: [] })).toBeNull();
});

it('a region without districts is not looked at by district', () => {
  const grains = grainsOf({ districts: [] });
  expect(grains).toEqual(['county', 'state']);
  expect(parseMapView({ by: 'district' }, { ...GROUPED, grains })!.by).toBe('county');
  expect(parse({ by: 'district' }).by).toBe('district');
});

it('a view is read from its own address as it was', () => {
  const view = parse({
    ...{ pair: 'SORHA-2', period: '2013-2025', by: 'district', layer: 'effort', design: 'random' },
    ...{ assay: 'molecular', crop: 'wheat', funder: 'wheat board & co', place: 'NE-3', public: 'yes' },
  });
  const search = Object.fromEntries(new URL(mapHref(view), 'http://example.org').searchParams);
  expect(parse(search)).toEqual(view);
});

it.each(['cluster', 'next', 'questions'])('the layer %s is by county, whatever is asked', (layer) => {
  expect(parse({ layer, by: 'state' }).by).toBe('county');
});
