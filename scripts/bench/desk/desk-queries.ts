import type { ResultFilter, ResultOrder } from '@/db/repositories/results';

interface DeskQuery {
  name: string;
  /** True for what is asked seldom and finds next to nothing: a walk along a whole order. */
  isSeldom: boolean;
  query: { filter: ResultFilter; order: ResultOrder };
}

/** What is typically asked of the results table; the last ones are asked seldom and find few rows or none. */
export function deskQueries(): DeskQuery[] {
  const asks = (name: string, filter: ResultFilter, order: ResultOrder = 'newest', isSeldom = false) => ({
    ...{ name, isSeldom },
    query: { filter, order },
  });
  return [
    asks('everything, newest first', {}),
    asks('everything, by county', {}, 'county'),
    asks('everything, by sample', {}, 'sample'),
    asks('weed and group of one season', { species: 'KCHSC', group: 9, first: 2020, last: 2020 }),
    asks('weed and group of three seasons, resistant', {
      ...{ species: 'AMAPA', group: 27, result: 'resistant' },
      ...{ first: 2017, last: 2019 },
    }),
    asks('one county', { county: '31109' }),
    asks('one county, weed and group', { county: '31109', species: 'KCHSC', group: 9 }),
    asks('a state, an active, by county', { stateFips: '20', active: 'mesotrione' }, 'county'),
    asks('a state and a result, by season', { stateFips: '31', result: 'resistant' }, 'season'),
    asks('a laboratory, a design and a result', {
      ...{ laboratory: 'Plains Laboratory', design: 'roadside', result: 'some survivors' },
    }),
    asks(
      'a laboratory, a crop and a funder, by sample',
      {
        ...{ laboratory: 'Valley Laboratory', crop: 'sorghum', funder: 'Corn board' },
      },
      'sample',
    ),
    asks('samples that begin so', { sample: 'P19-12' }),
    asks('one sample', { sample: 'V20-4321' }),
    asks('one import', { sheetId: 7 }),
    asks('one import, resistant to one group', { sheetId: 7, group: 9, result: 'resistant' }),
    asks('a rare result of one weed', { species: 'ERICA', result: 'inconclusive' }, 'newest', true),
    asks('a group that a weed is never screened with', { species: 'ERICA', group: 27 }, 'newest', true),
  ];
}
