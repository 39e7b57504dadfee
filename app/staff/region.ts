import type { Programme } from '@/db/repositories/programme';
import type { Region } from '@/lib/geography/types';
import { regionOf } from '../region';

/** The region of the programme, made once in this process. */
export function staffRegion({ regionName, states, simulated, districts }: Programme): Region {
  return regionOf({ region: regionName, states, simulated, districts });
}
