import type { County } from '@/lib/geography/types';

/** The name of a county as addresses have it: `ness-ks`, `st-louis-city-mo`. */
export function countySlug({ fullName, state }: Pick<County, 'fullName' | 'state'>): string {
  return `${fullName.replace(/ County$/, '')}-${state}`
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}
