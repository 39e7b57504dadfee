import type { County } from '@/lib/geography/types';
import { slug } from './slug';

/** The name of a county as addresses have it: `ness-ks`, `st-louis-city-mo`. */
export function countySlug({ fullName, state }: Pick<County, 'fullName' | 'state'>): string {
  return slug(`${fullName.replace(/ County$/, '')}-${state}`);
}
