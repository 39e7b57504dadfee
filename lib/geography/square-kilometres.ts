import { area } from '@turf/turf';
import type { County } from './types';

/** Area of a county's outline on the sphere, in km². */
export function squareKilometres({ geometry }: Pick<County, 'geometry'>): number {
  return area(geometry) / 1e6;
}
