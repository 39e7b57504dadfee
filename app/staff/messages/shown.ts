import { many } from '@/app/messages/en/format';
import type { ShownBy } from '@/lib/jobs/how-shown';

/** Texts of the maps that say how finely each county is shown. */
export const shownTexts = {
  mapTitle: (pair: string, window: string) => `${pair}, ${window}: the finest place that shows each county`,
  mapDescription: (told: string) =>
    `Each screened county by the finest public place that counts its populations. ${told}`,
  mapChoose: 'Choose the map',
  pair: 'Weed and group',
  window: 'Window',
  show: 'Show it',
  shownBy: {
    county: 'by itself',
    area: 'together with neighbours, as an area',
    district: 'in its district only',
    none: 'in its state only',
  } satisfies Record<ShownBy, string>,
  notScreened: 'not screened',
  countyWords: (tested: number, by: string) =>
    `${many(tested, 'population', 'populations')} screened; shown ${by}`,
  shownTally: (by: string, counties: number, tested: number) =>
    `${by}: ${many(counties, 'county', 'counties')} (${many(tested, 'population', 'populations')})`,
  countiesColumns: ['County', 'Screened', 'Shown'],
  countiesSummary: (counties: number) => `The same as a table (${many(counties, 'county', 'counties')})`,
} as const;
